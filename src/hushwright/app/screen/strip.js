// The verdicts in sight: one tile a group, with its worst margin and what the last edit did to it.
export default {
  props: { groups: { type: Array, default: () => [] }, busy: Boolean, stale: Boolean, provisional: Boolean, message: String, chosen: String, since: String, choices: { type: Array, default: () => [] }, sortable: Boolean },
  emits: ["choose", "cancel", "problems", "since", "sort"],
  methods: {
    whole(one) { return [one.margin, one.word, one.what, this.was(one)].filter(Boolean).join("\n"); },
    was(one) { return one.before && [one.arrow, one.change, this.bare(one)].filter(Boolean).join(" ") + (one.more ? "; " + one.more : ""); },
    bare(one) { return /^(as|not asked) before$/.test(one.before) ? one.before : "was " + one.before; },
  },
  template: `
    <section :class="['hw-strip', { stale: stale }]" aria-label="Verdicts">
      <div class="hw-tiles" :style="{ '--columns': groups.length > 11 ? Math.ceil(groups.length / 2) : groups.length || 1 }">
        <button v-for="one in groups" type="button" :key="one.group" :class="['hw-tile', one.outcome]" :data-group="one.group" :title="whole(one)"
          :aria-pressed="one.group === chosen" @click="$emit('choose', { group: one.group })">
          <span :class="['hw-tile-head', { long: one.group.length + one.margin.length > 25 }]"><span class="hw-sign" aria-hidden="true">{{ one.sign }}</span>
            <b>{{ one.group }}</b> <span class="hw-tile-margin">{{ one.margin }}</span></span>
          <span class="hw-word">{{ one.word }}</span>
          <span class="hw-tile-what">{{ one.what }}</span>
          <span :class="one.before ? 'hw-tile-before' : 'hw-tile-free'"><template v-if="one.before">{{ one.arrow }} <span class="hw-unseen">{{ one.change }} </span>{{ bare(one) }}<template v-if="one.beside">; {{ one.beside }}<span class="hw-unseen">: {{ one.more }}</span></template></template></span>
        </button>
      </div>
      <div class="hw-below">
      <label class="hw-since" v-if="choices.length">Changes since <select :value="since" @change="$emit('since', { since: $event.target.value })">
        <option v-for="one in choices" :value="one[0]">{{ one[1] }}</option></select></label>
      <button v-if="sortable" type="button" class="hw-quiet" @click="$emit('sort')">Worst first</button>
      <p class="hw-busy" role="status" aria-live="polite">
        <template v-if="busy"><span class="hw-spin" aria-hidden="true"></span>
          {{ provisional ? "The numbers are those of your last edit; how sure they are is being worked out, so what differs is provisional." : "Computing …" }}
          <button type="button" class="hw-quiet" @click="$emit('cancel')">Cancel</button></template>
        <template v-else-if="message"><button type="button" class="hw-quiet error" @click="$emit('problems')">▲ {{ message }}</button></template>
      </p></div>
    </section>`,
};
