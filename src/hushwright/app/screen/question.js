// The file has changed elsewhere: which text shall count? Stays until it is answered.
export default {
  props: { note: String, gone: Boolean, differing: { type: Array, default: () => [] } },
  emits: ["answer"],
  mounted() { this.$nextTick(() => { const first = this.$el.querySelector && this.$el.querySelector("button"); if (first) first.focus(); }); },
  template: `
    <div class="hw-veil"><div class="hw-question" role="alertdialog" aria-modal="true" aria-labelledby="hw-q" aria-describedby="hw-qd">
      <h2 id="hw-q">{{ gone ? 'The file is gone or cannot be read' : 'The file was changed by another program' }}</h2>
      <p id="hw-qd">{{ gone ? 'Nothing has been written since (' + note + '). What you have here is kept until you decide.'
        : 'Your last change is not saved yet, and nothing of either is lost. Here is what differs:' }}</p>
      <table v-if="differing.length"><thead><tr><th>Field</th><th>Mine</th><th>Theirs</th></tr></thead>
        <tbody><tr v-for="one in differing"><td>{{ one.path }}</td><td>{{ one.before || '(nothing)' }}</td><td>{{ one.after || '(nothing)' }}</td></tr></tbody></table>
      <div class="hw-row">
        <button type="button" class="hw-plain" @click="$emit('answer', { choice: 'mine' })">{{ gone ? 'Write mine anew' : 'Keep mine' }}</button>
        <button v-if="!gone" type="button" class="hw-plain" @click="$emit('answer', { choice: 'theirs' })">Take theirs</button>
        <button v-if="!gone" type="button" class="hw-plain" @click="$emit('answer', { choice: 'both' })">Keep both: mine as a copy</button>
      </div>
      <p v-if="!gone" class="hw-note">Either way you can undo.</p>
    </div></div>`,
};
