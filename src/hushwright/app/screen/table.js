// A table whose rows can be chosen: by their first cell, or by a button at their end.
export default {
  props: { head: { type: Array, default: () => [] }, rows: { type: Array, default: () => [] }, caption: String, act: String },
  emits: ["choose"],
  template: `
    <div class="hw-tables"><table v-if="rows.length" class="hw-table"><caption v-if="caption" class="hw-note">{{ caption }}</caption>
      <thead><tr><th v-for="one in head" scope="col">{{ one }}</th></tr></thead>
      <tbody><tr v-for="row in rows" :key="row.id" :data-row="row.id">
        <td v-for="(cell, at) in row.cells" :colspan="row.problem && at === 1 ? head.length - 1 : 1">
          <button v-if="at === 0 && row.link" type="button" class="hw-link" @click="$emit('choose', { id: row.id })">{{ row.chosen ? '▸ ' : '' }}{{ cell }}</button>
          <template v-else>{{ cell }}</template></td>
        <td v-if="act && !row.problem"><button v-if="row.can" type="button" class="hw-plain" @click="$emit('choose', { id: row.id })"
          :aria-label="act + ': ' + row.cells[0]">{{ act }}</button></td>
      </tr></tbody></table></div>`,
};
