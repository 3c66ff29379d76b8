// A table whose rows can be chosen: by their first cell, or by a button at their end; with two acts these stand under the row.
export default {
  props: { head: { type: Array, default: () => [] }, rows: { type: Array, default: () => [] }, caption: String, act: String, alone: String },
  emits: ["choose", "alone"],
  template: `
    <div class="hw-tables"><table v-if="rows.length" class="hw-table"><caption v-if="caption" class="hw-note">{{ caption }}</caption>
      <thead><tr><th v-for="one in head" scope="col">{{ one }}</th></tr></thead>
      <tbody><template v-for="row in rows" :key="row.id"><tr :data-row="row.id">
        <td v-for="(cell, at) in row.cells" :data-head="head[at]" :colspan="row.problem && at === 1 ? head.length - 1 : 1">
          <button v-if="at === 0 && row.link" type="button" class="hw-link" @click="$emit('choose', { id: row.id })">{{ row.chosen ? '▸ ' : '' }}{{ cell }}</button>
          <template v-else>{{ cell }}</template></td>
        <td v-if="act && !alone && !row.problem"><button v-if="row.can" type="button" class="hw-plain" @click="$emit('choose', { id: row.id })"
          :aria-label="act + ': ' + row.cells[0]">{{ act }}</button></td>
      </tr><tr v-if="alone && (row.note || row.can || row.alone)" class="hw-under"><td :colspan="head.length">
        <button v-if="row.alone" type="button" class="hw-plain" @click="$emit('alone', { id: row.id })"
          :aria-label="alone + ': ' + row.cells[0]">{{ alone }}</button>
        <button v-if="row.can" type="button" class="hw-plain" @click="$emit('choose', { id: row.id })"
          :aria-label="act + ': ' + row.cells[0]">{{ act }}</button>
        <span v-if="row.note" class="hw-note">{{ row.note }}</span></td></tr></template></tbody></table></div>`,
};
