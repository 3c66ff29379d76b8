// One of several, in a plain list of the browser.
export default {
  props: { label: String, options: { type: Array, default: () => [] }, chosen: String },
  emits: ["choose"],
  template: `
    <label class="hw-choice">{{ label }} <select :value="chosen" @change="$emit('choose', { key: $event.target.value })">
      <option v-for="[key, said] in options" :value="key">{{ said }}</option></select></label>`,
};
