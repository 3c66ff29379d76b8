// What keeps the build from being computed, in sight whatever view is open, with the ways on as buttons.
export default {
  props: { problems: { type: Array, default: () => [] }, more: { type: Number, default: 0 }, back: String },
  emits: ["set", "reach", "back", "problems"],
  template: `
    <section v-if="problems.length" class="hw-stuck" role="alert" aria-label="What stands in the way">
      <p><b><span aria-hidden="true">▲</span> The van cannot be built so.</b> The verdicts shown are of the version before.</p>
      <div v-if="back && !problems.some((one) => one.mends.length)" class="hw-row"><button type="button" class="hw-plain" @click="$emit('back')">Keep the earlier value: take back {{ back }}</button></div>
      <ul>
        <li v-for="one in problems" :key="one.place + one.note" :data-stuck="one.place">
          <span><template v-if="one.label">{{ one.label }}: </template>{{ one.note }}<template v-if="one.hint">; {{ one.hint }}</template></span>
          <span class="hw-row"><button v-for="mend in one.mends" type="button" class="hw-plain"
            @click="$emit('set', mend)">{{ mend.label }}</button>
            <button v-if="one.place" type="button" class="hw-link" @click="$emit('reach', { place: one.place })">Show its field</button></span>
        </li>
      </ul>
      <div class="hw-row">
        <button v-if="back && problems.some((one) => one.mends.length)" type="button" class="hw-plain" @click="$emit('back')">Keep the earlier value: take back {{ back }}</button>
        <button v-if="more" type="button" class="hw-plain" @click="$emit('problems')">{{ more }} more</button>
      </div>
    </section>`,
};
