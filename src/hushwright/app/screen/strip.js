// The verdicts in sight: one tile a group, with its worst margin and what the last edit did to it.
export default {
  props: { groups: { type: Array, default: () => [] }, busy: Boolean, stale: Boolean, provisional: Boolean, message: String, chosen: String },
  emits: ["choose", "cancel", "problems"],
  template: `
    <section :class="['hw-strip', { stale: stale }]" aria-label="Verdicts">
      <div class="hw-tiles" :style="{ '--columns': groups.length > 11 ? Math.ceil(groups.length / 2) : groups.length || 1 }">
        <button v-for="one in groups" type="button" :key="one.group" :class="['hw-tile', one.outcome]" :data-group="one.group" :title="one.what"
          :aria-pressed="one.group === chosen" @click="$emit('choose', { group: one.group })">
          <span class="hw-tile-head"><span class="hw-sign" aria-hidden="true">{{ one.sign }}</span>
            <b>{{ one.group }}</b> <span class="hw-word">{{ one.word }}</span></span>
          <span class="hw-tile-margin">{{ one.margin }}</span>
          <span class="hw-tile-what">{{ one.what }}</span>
          <span v-if="one.before" class="hw-tile-before">{{ one.change }} was {{ one.before }}</span>
        </button>
      </div>
      <p class="hw-busy" role="status" aria-live="polite">
        <template v-if="busy"><span class="hw-spin" aria-hidden="true"></span>
          {{ provisional ? "The numbers are those of your last edit; how sure they are is being worked out, so what differs is provisional." : "Computing …" }}
          <button type="button" class="hw-quiet" @click="$emit('cancel')">Cancel</button></template>
        <template v-else-if="message"><button type="button" class="hw-quiet error" @click="$emit('problems')">▲ {{ message }}</button></template>
      </p>
    </section>`,
};
