// A drawing of the van with what can be dragged in it. Lengths go in metres of the view, y upward.
export default {
  props: {
    svg: { type: String, default: "" },
    handles: { type: Array, default: () => [] },
    scale: { type: Number, default: 40 },
    left: { type: Number, default: 0 },
    top: { type: Number, default: 0 },
    width: { type: Number, default: 100 },
    height: { type: Number, default: 60 },
    step: { type: Number, default: 0.005 },
    names: { type: Object, default: () => ({}) },
    us: Boolean,
    shapes: { type: Array, default: () => [] },
    states: { type: Array, default: () => [] },
    state: String,
  },
  emits: ["move", "pick", "state"],
  created() {
    this.words = { wall: "walls", boundary: "room ends", fitting: "fittings", opening: "openings", duct: "ducts", cut: "cuts", route: "routes", layer: "layers" };
  },
  data() {
    return { held: null, dx: 0, dy: 0, named: "", shown: "", off: { route: true } };
  },
  computed: {
    kinds() {
      return [...new Set(this.handles.map((one) => one.kind))];
    },
    outlines() {
      return this.shapes.map((one) => {
        const points = one.points.map(([x, y]) => [(x * 1000) / this.scale - this.left, this.top - (y * 1000) / this.scale]);
        const middle = [0, 1].map((i) => points.reduce((sum, each) => sum + each[i], 0) / points.length);
        return { ...one, points: points.map((each) => each.join(",")).join(" "), at: middle };
      });
    },
    marks() {
      return this.handles.filter((one) => !this.off[one.kind]).map((one) => ({ ...one, cx: (one.x * 1000) / this.scale - this.left, cy: this.top - (one.y * 1000) / this.scale }));
    },
  },
  methods: {
    point(event) {
      const svg = this.$refs.over;
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      return { x: ((at.x + this.left) * this.scale) / 1000, y: ((this.top - at.y) * this.scale) / 1000 };
    },
    snap(length) {
      return Math.round(length / this.step) * this.step;
    },
    take(event, one) {
      event.target.setPointerCapture(event.pointerId);
      this.held = { one, from: this.point(event) };
      this.dx = this.dy = 0;
      event.target.focus();
    },
    drag(event) {
      if (!this.held) return;
      const now = this.point(event);
      this.dx = this.held.one.axes.includes("x") ? this.snap(now.x - this.held.from.x) : 0;
      this.dy = this.held.one.axes.includes("y") ? this.snap(now.y - this.held.from.y) : 0;
    },
    drop() {
      if (!this.held) return;
      const { one } = this.held;
      this.held = null;
      if (this.dx || this.dy) this.$emit("move", { id: one.id, dx: this.dx, dy: this.dy });
      else this.$emit("pick", { id: one.id });
    },
    key(event, one) {
      const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
      if (event.key === "Enter" || event.key === " ") {
        event.preventDefault();
        return this.$emit("pick", { id: one.id });
      }
      if (event.key === "Escape") { this.held = null; return; }
      if (!way) return;
      event.preventDefault();
      const step = event.shiftKey ? 10 * this.step : this.step;
      const dx = one.axes.includes("x") ? way[0] * step : 0;
      const dy = one.axes.includes("y") ? way[1] * step : 0;
      if (dx || dy) this.$emit("move", { id: one.id, dx, dy });
    },
    far(length) {
      return this.us ? (length / 0.0254).toFixed(2) + " in" : Math.round(10000 * length) / 10 + " mm";
    },
    over(event) {
      const part = event.target.closest && event.target.closest("[data-part]");
      this.named = part ? (this.names[part.dataset.part] || part.dataset.part) + ", " + part.dataset.layer : "";
    },
    press(event) {
      const part = event.target.closest && event.target.closest("[data-part]");
      if (part) this.$emit("pick", { part: part.dataset.part });
    },
    shift(one) {
      if (!this.held || this.held.one.id !== one.id) return "";
      return "translate(" + (this.dx * 1000) / this.scale + " " + (-this.dy * 1000) / this.scale + ")";
    },
  },
  template: `
    <figure class="hw-figure">
      <div v-if="kinds.length || states.length" class="hw-legend"><span v-if="kinds.length">Handles:</span>
        <label v-for="one in kinds"><input type="checkbox" :checked="!off[one]" @change="off[one] = !$event.target.checked" /> {{ words[one] || one }}</label>
        <label v-if="states.length">Moving in state <select :value="state" @change="$emit('state', { state: $event.target.value })">
          <option value="">none shown</option><option v-for="one in states" :value="one">{{ one.replaceAll('_', ' ') }}</option></select></label></div>
      <div class="hw-sheet" :style="{ maxWidth: 'calc(max(320px, 100vh - 300px) * ' + width / height + ')' }">
        <div class="hw-under" v-html="svg" @mousemove="over" @click="press"></div>
        <svg ref="over" class="hw-over" :viewBox="'0 0 ' + width + ' ' + height" @pointermove="drag" @pointerup="drop" @pointercancel="held = null">
          <g v-for="one in outlines" :class="['hw-swept', { moves: one.moves, strikes: one.strikes }]"><polygon :points="one.points" />
            <text :x="one.at[0]" :y="one.at[1]">{{ one.strikes ? '▲ ' : '' }}{{ one.name }}</text></g>
          <g v-for="one in marks" :key="one.id" :class="['hw-handle', one.kind]" tabindex="0" role="button" :data-handle="one.id"
            :aria-label="one.label + ', move with the arrow keys'" :transform="shift(one)" @pointerdown.prevent="take($event, one)"
            @keydown="key($event, one)" @mouseenter="shown = one.label" @mouseleave="shown = ''" @focus="shown = one.label" @blur="shown = ''">
            <title>{{ one.label }}</title>
            <circle :cx="one.cx" :cy="one.cy" r="2.8" class="hw-reach" />
            <rect v-if="one.kind === 'wall'" :x="one.cx - 1.5" :y="one.cy - 6" width="3" height="12" rx="1.5" />
            <rect v-else-if="one.kind === 'boundary'" :x="one.cx - 0.9" :y="one.cy - 3" width="1.8" height="6" rx="0.9" />
            <path v-else-if="one.kind === 'cut'" :d="'M' + (one.cx - 1.5) + ' ' + one.cy + 'h3M' + one.cx + ' ' + (one.cy - 1.5) + 'v3'" />
            <rect v-else-if="one.kind === 'route'" :x="one.cx - 0.9" :y="one.cy - 0.9" width="1.8" height="1.8" />
            <circle v-else :cx="one.cx" :cy="one.cy" r="1" />
          </g>
        </svg>
      </div>
      <figcaption class="hw-note" aria-live="polite">
        <template v-if="held">{{ held.one.label }}: {{ dx ? 'along ' + far(dx) : '' }} {{ dy ? 'across ' + far(dy) : '' }}</template>
        <template v-else>{{ shown || named || (kinds.length ? 'Drag a handle, or move it with the arrow keys; click a part to see its values.' : '') }}</template>
      </figcaption>
    </figure>`,
};
