// Verdicts of one group. Each opens to why, what to try, and what its spread is made of.
export default {
  props: { group: String, rows: Array, chosen: String },
  emits: ["choose", "reach", "walls"],
  methods: {
    percent(share) { return share < 0.01 ? "<1 %" : Math.round(100 * share) + " %"; },
  },
  template: `
    <div class="hw-verdicts">
      <article v-for="one in rows" :key="one.id" :class="['hw-verdict', one.outcome]" :data-verdict="one.id">
        <button type="button" class="hw-turn" :aria-expanded="one.id === chosen" @click="$emit('choose', { id: one.id === chosen ? '' : one.id })">
          <span class="hw-word"><span class="hw-sign" aria-hidden="true">{{ one.sign }}</span> {{ one.word }}</span>
          <span class="hw-question-text">{{ one.question }}<span v-if="one.state" class="hw-note"> {{ one.state }}</span></span>
          <span class="hw-numbers"><b v-if="one.value">{{ one.value }}</b> <span v-if="one.limit">{{ one.limit }}</span>
            <span v-if="one.margin" class="hw-margin">margin {{ one.margin }}</span>
            <span v-if="one.before" class="hw-tile-before">{{ one.arrow }} {{ one.change }} was {{ one.before }}</span></span>
        </button>
        <dl v-if="one.id === chosen">
          <template v-if="one.reason"><dt>reason</dt><dd>{{ one.reason }}</dd></template>
          <template v-if="one.hint.length"><dt>try</dt><dd><template v-for="each in one.hint"><button v-if="each.place" type="button" class="hw-link hw-within"
            @click="$emit('reach', { place: each.place, drawn: each.drawn })">{{ each.text }}</button><template v-else>{{ each.text }}</template></template></dd></template>
          <template v-if="one.caution"><dt>caution</dt><dd class="hw-caution">{{ one.caution }}</dd></template>
          <template v-if="one.parts.length"><dt>part</dt><dd><div v-for="each in one.parts"><button type="button" class="hw-link" @click="$emit('reach', { place: each.place, drawn: each.drawn })">{{ each.name }}</button>
            <span v-if="each.said" class="hw-note"> {{ each.said }}</span> <button v-if="each.face" type="button" class="hw-link hw-layers-of" @click="$emit('walls', { face: each.face })">its layers</button></div></dd></template>
          <template v-if="one.is_wish"><dt>wish</dt><dd><button type="button" class="hw-link" @click="$emit('reach', { place: one.place, drawn: '' })">{{ one.place_said }}</button></dd></template>
          <template v-else-if="one.place && !one.parts.some((each) => each.place === one.place)"><dt>place</dt><dd><button type="button" class="hw-link" @click="$emit('reach', { place: one.place, drawn: '' })">{{ one.place_said }}</button></dd></template>
        </dl>
        <div v-if="one.id === chosen" class="hw-shown"><slot></slot></div>
        <dl v-if="one.id === chosen">
          <dt>basis</dt><dd>{{ one.basis }}</dd>
          <template v-if="one.lines.length"><dt>lines</dt><dd><div v-for="line in one.lines">{{ line }}</div></dd></template>
          <template v-if="one.validity.length"><dt>validity</dt><dd><div v-for="note in one.validity">{{ note }}</div></dd></template>
          <template v-if="one.shares.length"><dt>spread</dt><dd>
            <div v-for="each in one.shares" class="hw-share"><span class="hw-bar"><span :style="{ width: (100 * each.share) + '%' }"></span></span>
              <span class="hw-percent">{{ percent(each.share) }}</span>
              <button v-if="each.path" type="button" class="hw-link" @click="$emit('reach', { place: each.path })">{{ each.label }}</button>
              <span v-else>{{ each.label }}</span> <span class="hw-note">{{ each.change }}</span></div>
          </dd></template>
        </dl>
      </article>
    </div>`,
};
