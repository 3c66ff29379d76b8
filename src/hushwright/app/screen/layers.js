// One face of a room with its layers, outside first: what each is, how thick, and where it lies among the others.
export default {
  directives: { typed: window.hwTyped },
  props: {
    note: String, layers: { type: Array, default: () => [] },
    lists: { type: Object, default: () => ({}) }, kinds: { type: Array, default: () => [] }, refused: { type: Object, default: null },
  },
  emits: ["set", "lift", "remove", "add", "reach"],
  data() { return { kind: "sheet" }; },
  methods: {
    typed(event, one, key, seen) {
      const typed = event.target.value.trim();
      if (typed && typed !== seen) this.$emit("set", { path: [...one.path, key], typed, seen });
    },
  },
  template: `
    <section class="hw-layers" aria-label="Layers">
      <p v-if="note" class="hw-note">{{ note }}</p>
      <ol v-if="layers.length">
        <li v-for="(one, at) in layers" :key="one.id" :data-layer-row="one.id">
          <button type="button" class="hw-link" @click="$emit('reach', { place: one.id })">{{ at + 1 }} {{ one.word }}</button>
          <select v-if="one.list" :value="one.name" :aria-label="one.word + ', material'"
            @change="$emit('set', { path: [...one.path, one.key], typed: $event.target.value, seen: one.name })">
            <option v-for="name in lists[one.list] || []" :value="name">{{ name }}</option></select>
          <span v-else>{{ one.name }}</span>
          <span v-if="one.size" class="hw-measure"><input v-typed="refused && refused.id === one.id && refused.key === one.size ? refused.typed : one.text" :aria-label="one.word + ', ' + one.size" size="7"
            @change="typed($event, one, one.size, one.text)" @keydown.enter="$event.target.blur()" /><span v-if="one.unit" class="hw-unit">{{ one.unit }}</span></span>
          <span class="hw-row">
            <button v-if="at" type="button" class="hw-plain" title="outward" :aria-label="one.word + ' outward'" @click="$emit('lift', { path: one.path })">↑</button>
            <button v-if="at + 1 < layers.length" type="button" class="hw-plain" title="inward" :aria-label="one.word + ' inward'"
              @click="$emit('lift', { path: layers[at + 1].path })">↓</button>
            <button type="button" class="hw-plain" title="take out" :aria-label="one.word + ' take out'" @click="$emit('remove', { path: one.path })">×</button></span>
          <em v-for="note in one.notes" class="hw-note">{{ note }}</em>
          <em v-if="refused && refused.id === one.id" class="hw-problem error"><span>Not taken: {{ refused.note }}
            <button v-for="offer in refused.offers" type="button" class="hw-plain"
              @click="$emit('set', { path: [...one.path, refused.key], typed: offer, seen: one.text })">{{ offer }}</button></span></em>
        </li></ol>
      <div v-if="layers.length" class="hw-row"><label>Add inside <select v-model="kind"><option v-for="one in kinds" :value="one">{{ one }}</option></select></label>
        <button type="button" class="hw-plain" @click="$emit('add', { kind })">Add layer</button></div>
    </section>`,
};
