// The form of one part of the build file. It knows no field by name: everything comes with the entries.
const Problems = {
  props: { problems: Array },
  template: `
    <p v-for="one in problems" :class="['hw-problem', one.severity]" role="alert">
      <span class="hw-mark" aria-hidden="true">{{ one.severity === 'error' ? '▲' : '◆' }}</span>
      <span>{{ one.severity === 'error' ? 'Problem: ' : 'Remark: ' }}{{ one.note }}<template v-if="one.hint">; {{ one.hint }}</template></span>
    </p>`,
};

const Origin = {
  inject: ["act"],
  props: { entry: Object },
  data() {
    return { is: "", from: "", plus_minus: "", by: "" };
  },
  watch: {
    entry: { immediate: true, handler() { this.take(); } },
  },
  methods: {
    take() {
      this.is = this.entry.text;
      this.from = this.entry.origin;
      this.plus_minus = this.entry.plusMinus;
      this.by = this.entry.by;
    },
    say() {
      this.act("parts", {
        path: this.entry.path,
        parts: { is: this.entry.text, from: this.from, plus_minus: this.plus_minus, by: this.by },
      });
    },
  },
  template: `
    <div class="hw-origin">
      <label>from
        <select v-model="from" @change="say" :data-origin="entry.id">
          <option value="">not said</option>
          <option v-for="one in ['measured', 'supplier', 'typical', 'assumed']" :value="one">{{ one }}</option>
        </select>
      </label>
      <label>plus or minus <input v-model.lazy="plus_minus" @change="say" size="8" placeholder="2 mm" /></label>
      <label>by <input v-model.lazy="by" @change="say" size="12" placeholder="who, with what" /></label>
    </div>`,
};

const Value = {
  components: { Problems, Origin },
  directives: { typed: window.hwTyped },
  inject: ["act", "shared"],
  props: { entry: Object },
  data() {
    return { open: false };
  },
  computed: {
    refused() {
      const one = this.shared.refused;
      return one && one.id === this.entry.id ? one : null;
    },
    shown() {
      return this.refused ? this.refused.typed : this.entry.text;
    },
    words() {
      return this.shared.lists[this.entry.list] || [];
    },
    certain() {
      const parts = [this.entry.origin, this.entry.plusMinus && "± " + this.entry.plusMinus, this.entry.by];
      return parts.filter((one) => one).join(", ");
    },
    hints() {
      const parts = [this.entry.limits, this.entry.given ? "" : this.entry.leftOut];
      return parts.filter((one) => one).join(" · ");
    },
  },
  methods: {
    say(event) {
      const typed = event.target.value.trim();
      if (typed === this.entry.text && !this.refused) return;
      if (typed === "" && this.entry.given) {
        if (!this.entry.required) return this.act("remove", { path: this.entry.path });
      }
      this.act("set", { path: this.entry.path, typed, seen: this.entry.text });
    },
  },
  template: `
    <div :class="['hw-field', { absent: !entry.given }]" :data-field="entry.id">
      <div class="hw-name">
        <label :for="'f-' + entry.id">{{ entry.label }}<span v-if="entry.required" class="hw-needed"> (needed)</span></label>
        <button v-if="entry.what === 'quantity' && entry.given" type="button" class="hw-quiet" :aria-expanded="open"
          @click="open = !open" :aria-label="'How sure is ' + entry.label + '?'">{{ certain || 'how sure?' }}</button>
      </div>
      <div class="hw-input">
        <select v-if="entry.choices" :id="'f-' + entry.id" :value="shown" @change="say">
          <option value="">{{ entry.leftOut || 'not said' }}</option>
          <option v-if="shown && !entry.choices.includes(shown)" :value="shown">{{ shown }}</option>
          <option v-for="one in entry.choices" :value="one">{{ one }}</option>
        </select>
        <template v-else>
          <input :id="'f-' + entry.id" v-typed="shown" @change="say" :list="words.length ? 'l-' + entry.id : null"
            :placeholder="entry.what === 'words' ? '' : 'like ' + entry.like" autocomplete="off" spellcheck="false"
            :aria-invalid="!!refused || entry.problems.some((one) => one.severity === 'error')" :aria-describedby="'d-' + entry.id" />
          <span v-if="entry.unit && !refused" class="hw-unit">{{ entry.unit }}</span>
          <datalist v-if="words.length" :id="'l-' + entry.id"><option v-for="one in words" :value="one"></option></datalist>
        </template>
        <button v-if="entry.given && !entry.required" type="button" class="hw-quiet hw-out"
          @click="act('remove', { path: entry.path })" :aria-label="'Leave out ' + entry.label" title="leave out">×</button>
      </div>
      <p class="hw-sentence" :id="'d-' + entry.id">{{ entry.sentence }}<span v-if="hints" class="hw-limits"> {{ hints }}</span>
        <span v-if="entry.assumed" class="hw-assumed"> Assumed: {{ entry.assumed }}</span></p>
      <p v-if="refused" class="hw-problem error" role="alert"><span class="hw-mark" aria-hidden="true">▲</span>
        <span>Not taken: {{ refused.note }}. The value is as before.
          <button v-for="one in refused.offers || []" type="button" class="hw-plain"
            @click="act('set', { path: entry.path, typed: one, seen: entry.text })">{{ one }}</button></span></p>
      <Problems :problems="entry.problems" />
      <Origin v-if="open" :entry="entry" />
    </div>`,
};

const Part = {
  name: "HwPart",
  components: { Problems, Value },
  inject: ["act", "shared"],
  props: { entry: Object, top: Boolean },
  data() {
    return { kind: "", called: "" };
  },
  computed: {
    isOpen() {
      const said = this.shared.opened[this.entry.id];
      if (said !== undefined) return said;
      if (this.top || this.wrong) return true;
      return this.entry.path.length < 3 && this.entry.form === "section" && this.entry.children.length < 9;
    },
    wrong() {
      const any = (entry) => entry.problems.some((one) => one.severity === "error") || (entry.children || []).some(any);
      return any(this.entry);
    },
    here() {
      return this.entry.children.filter((one) => one.given || one.required);
    },
    others() {
      return this.entry.children.filter((one) => !one.given && !one.required);
    },
    showsOthers() {
      return !!this.shared.more[this.entry.id];
    },
    grows() {
      return (this.entry.form === "list" && !this.entry.fixed) || this.entry.form === "map";
    },
    begun() {
      return this.entry.given;
    },
    place() {
      const last = this.entry.path[this.entry.path.length - 1];
      return typeof last === "number" ? last : -1;
    },
  },
  methods: {
    insert(event) {
      const kind = event.target.value;
      event.target.value = "";
      if (kind) this.act("add", { path: this.entry.path.slice(0, -1), kind, called: "", before: this.place });
    },
    turn() {
      this.shared.opened[this.entry.id] = !this.isOpen;
    },
    add() {
      this.act("add", { path: this.entry.path, kind: this.kind || this.entry.kinds[0] || "", called: this.called.trim() });
      this.shared.opened[this.entry.id] = true;
      this.called = "";
    },
  },
  template: `
    <section :class="['hw-part', { top, absent: !entry.given }]" :data-part="entry.id">
      <header v-if="!top">
        <button type="button" class="hw-turn" :aria-expanded="isOpen" @click="turn">
          <span aria-hidden="true">{{ isOpen ? '▾' : '▸' }}</span> {{ entry.label }}
          <span v-if="wrong" class="hw-mark error">▲ problem</span>
          <span class="hw-note" v-if="!isOpen && entry.note">{{ entry.note }}</span>
          <span class="hw-note" v-if="!entry.given">not in the file</span>
        </button>
        <template v-if="place >= 0">
          <button v-if="place > 0" type="button" class="hw-quiet" @click="act('lift', { path: entry.path })"
            :aria-label="'Move ' + entry.label + ' up'" title="move up">↑</button>
          <select v-if="entry.kinds.length" class="hw-insert" :aria-label="'Put something before ' + entry.label" @change="insert">
            <option value="">put before …</option><option v-for="one in entry.kinds" :value="one">{{ one.replaceAll('_', ' ') }}</option></select>
        </template>
        <button v-if="entry.given && !entry.required" type="button" class="hw-quiet hw-out"
          @click="act('remove', { path: entry.path })" :aria-label="'Take out ' + entry.label" title="take out">×</button>
      </header>
      <div v-if="isOpen" class="hw-inside">
        <p v-if="entry.sentence" class="hw-sentence">{{ entry.sentence }}</p>
        <Problems :problems="entry.problems" />
        <template v-for="one in here" :key="one.id">
          <Value v-if="one.form === 'value'" :entry="one" />
          <div v-else-if="one.form === 'strange'" class="hw-field" :data-field="one.id">
            <div class="hw-name"><b>{{ one.label }}</b></div>
            <div class="hw-input"><code>{{ one.text }}</code>
              <button type="button" class="hw-quiet" @click="act('remove', { path: one.path })">take out</button></div>
            <Problems :problems="one.problems" />
          </div>
          <HwPart v-else :entry="one" />
        </template>
        <template v-if="entry.form === 'section' && begun && others.length">
          <button type="button" class="hw-more" :aria-expanded="showsOthers" @click="shared.more[entry.id] = !showsOthers">
            {{ showsOthers ? 'Hide what is left out' : others.length + ' more that could be said' }}</button>
          <template v-if="showsOthers" v-for="one in others" :key="one.id">
            <Value v-if="one.form === 'value'" :entry="one" />
            <HwPart v-else :entry="one" />
          </template>
        </template>
        <form v-if="grows || !begun" class="hw-add" @submit.prevent="add">
          <select v-if="entry.kinds.length && (grows || entry.form === 'section')" v-model="kind" :aria-label="'Kind to add to ' + entry.label">
            <option value="" disabled>which?</option>
            <option v-for="one in entry.kinds" :value="one">{{ one.replaceAll('_', ' ') }}</option>
          </select>
          <input v-if="entry.form === 'map'" v-model="called" required :aria-label="'Name of the new part in ' + entry.label"
            placeholder="its name" size="14" />
          <button type="submit" class="hw-plus" :data-add="entry.id">{{ begun && grows ? 'Add one' : 'Begin ' + entry.label.toLowerCase() }}</button>
        </form>
      </div>
    </section>`,
};

export default {
  components: { Part, Value },
  props: { parts: { type: Array, default: () => [] }, part: String, entries: { type: Array, default: () => [] }, lists: Object, refused: Object },
  emits: ["choose", "set", "parts", "add", "lift", "remove"],
  provide() {
    return { act: (name, told) => this.$emit(name, told), shared: this.shared };
  },
  data() {
    return { shared: { opened: {}, more: {}, lists: this.lists || {}, refused: this.refused } };
  },
  watch: {
    lists(now) { this.shared.lists = now || {}; },
    refused(now) { this.shared.refused = now; },
    part() { this.$nextTick(() => this.toTop()); },
  },
  methods: {
    reach(id) {
      // Open what holds a field and bring it into sight.
      const keys = id.split(".");
      for (let length = 1; length <= keys.length; length++) {
        const above = keys.slice(0, length).join(".");
        this.shared.opened[above] = true;
        this.shared.more[above] = true;
      }
      this.$nextTick(() => {
        const found = this.$el.querySelector('[data-field="' + CSS.escape(id) + '"], [data-part="' + CSS.escape(id) + '"]');
        if (!found) return;
        found.scrollIntoView({ block: "center" });
        const input = found.querySelector("input, select, button");
        if (input) input.focus();
      });
    },
    toTop() { // another part begins at its head; what is asked for by name is brought into sight after this
      const pane = this.$el.closest(".hw-side");
      if (pane && getComputedStyle(pane).overflowY === "auto") pane.scrollTop = 0;
      else if (this.$el.getBoundingClientRect().top < 0) this.$el.scrollIntoView({ block: "start" });
    },
    openAll() {
      const visit = (entry) => {
        this.shared.opened[entry.id] = true;
        this.shared.more[entry.id] = true;
        (entry.children || []).forEach(visit);
      };
      this.entries.forEach(visit);
    },
  },
  template: `
    <div class="hw-form">
      <nav aria-label="Parts of the build file">
        <label class="hw-narrow">Part of the build file
          <select :value="part" @change="$emit('choose', { part: $event.target.value })">
            <option v-for="one in parts" :value="one.name">{{ one.label }}{{ one.errors ? ' ▲' : '' }}</option>
          </select>
        </label>
        <ul class="hw-wide">
          <li v-for="one in parts"><button type="button" :aria-current="one.name === part ? 'true' : null"
            :class="{ absent: !one.given }" @click="$emit('choose', { part: one.name })">{{ one.label }}
            <span v-if="one.errors" class="hw-mark error">▲ {{ one.errors }}</span></button></li>
        </ul>
      </nav>
      <div class="hw-entries">
        <template v-for="one in entries" :key="one.id">
          <Value v-if="one.form === 'value'" :entry="one" />
          <Part v-else :entry="one" top />
        </template>
      </div>
    </div>`,
};
