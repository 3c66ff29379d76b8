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
    marked: { type: Array, default: () => [] },
    listed: { type: Array, default: () => [] },
  },
  emits: ["move", "pick", "state"],
  created() {
    this.words = { wall: "walls", boundary: "room ends", fitting: "fittings", opening: "openings", duct: "ducts", cut: "cuts", route: "routes", layer: "layers" };
  },
  data() {
    return { held: null, dx: 0, dy: 0, named: "", shown: "", off: { route: true }, pixel: 0.25 };   // mm of the sheet in a pixel
  },
  mounted() {
    this.watcher = new ResizeObserver(() => this.measure());
    this.watcher.observe(this.$refs.over);
    this.measure();
  },
  beforeUnmount() { this.watcher.disconnect(); },
  watch: {
    svg() { this.$nextTick(() => { this.measure(); this.mark(); }); },
    marked() { this.$nextTick(() => this.mark()); },
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
      return this.handles.filter((one) => !this.off[one.kind]).map((one) => ({ ...one, cx: (one.x * 1000) / this.scale - this.left,
        cy: this.top - (one.y * 1000) / this.scale + (["fitting", "opening", "duct"].includes(one.kind) ? 4 : 0) }));   // beside the number of the part
    },
  },
  methods: {
    measure() {
      const wide = this.$refs.over.clientWidth;
      if (!wide) return;
      this.pixel = this.width / wide;
      this.mark();
    },
    // Parts that are asked about: hatched and outlined over the drawing, each with a number and its name.
    mark() {
      const svg = this.$refs.under.querySelector("svg");
      if (!svg) return;
      svg.querySelectorAll(".hw-marks").forEach((one) => one.remove());
      if (!this.marked.length) return;
      const make = (tag, into, all) => {
        const one = document.createElementNS("http://www.w3.org/2000/svg", tag);
        Object.entries(all).forEach(([name, value]) => one.setAttribute(name, value));
        return into.appendChild(one);
      };
      const all = make("g", svg, { class: "hw-marks" });
      const hatch = "hw-hatch-" + this.$.uid, step = 5 * this.pixel, size = 13 * this.pixel, taken = [];
      const pattern = make("pattern", make("defs", all, {}), { id: hatch, width: step, height: step, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
      make("line", pattern, { x1: 0, y1: 0, x2: 0, y2: step, "stroke-width": 2.2 * this.pixel });
      for (const one of this.marked) {
        const shapes = [...svg.querySelectorAll('[data-part="' + CSS.escape(one.part) + '"]')].filter((each) => !["text", "dimensions"].includes(each.dataset.layer) && !each.closest(".hw-marks"));
        if (!shapes.length) continue;
        const group = make("g", all, { class: one.on ? "on" : "" });
        let box = null;
        for (const each of shapes) {
          const copy = group.appendChild(each.cloneNode(true));
          ["data-part", "data-layer", "stroke", "stroke-width"].forEach((name) => copy.removeAttribute(name));
          copy.setAttribute("fill", each.getAttribute("fill") && each.getAttribute("fill") !== "none" ? "url(#" + hatch + ")" : "none");
          copy.style.strokeWidth = (one.on ? 4 : 2.5) * this.pixel;
          const b = each.getBBox();
          box = box ? { x: Math.min(box.x, b.x), y: Math.min(box.y, b.y), r: Math.max(box.r, b.x + b.width), b: Math.max(box.b, b.y + b.height) } : { x: b.x, y: b.y, r: b.x + b.width, b: b.y + b.height };
        }
        const wide = size * 0.56 * one.label.length, x = Math.min(Math.max((box.x + box.r) / 2, wide / 2 + size / 2), this.width - wide / 2 - size / 2);
        let y = (box.y + box.b) / 2;
        while (taken.some((each) => Math.abs(each.y - y) < 1.4 * size && Math.abs(each.x - x) < (each.wide + wide) / 2 + size)) y += 1.4 * size;
        taken.push({ x, y, wide });
        const flag = make("g", group, { class: "flag" });
        make("rect", flag, { x: x - wide / 2 - 0.4 * size, y: y - 0.7 * size, width: wide + 0.8 * size, height: 1.4 * size, rx: 0.3 * size });
        make("text", flag, { x, y: y + 0.36 * size, "font-size": size, "text-anchor": "middle" }).textContent = one.label;
      }
    },
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
      <div class="hw-pan"><div class="hw-sheet" :style="{ maxWidth: 'calc(max(320px, 100vh - 300px) * ' + width / height + ')', '--wide': width / height > 1.2 ? width / height : 0 }">
        <div ref="under" class="hw-under" v-html="svg" @mousemove="over" @click="press"></div>
        <svg ref="over" class="hw-over" :viewBox="'0 0 ' + width + ' ' + height" @pointermove="drag" @pointerup="drop" @pointercancel="held = null">
          <g v-for="one in outlines" :class="['hw-swept', { moves: one.moves, strikes: one.strikes }]"><polygon :points="one.points" />
            <text :x="one.at[0]" :y="one.at[1]">{{ one.strikes ? '▲ ' : '' }}{{ one.name }}</text></g>
          <g v-for="one in marks" :key="one.id" :class="['hw-handle', one.kind]" tabindex="0" role="button" :data-handle="one.id" :style="{ '--px': pixel }"
            :aria-label="one.label + ', move with the arrow keys'" :transform="shift(one)" @pointerdown.prevent="take($event, one)"
            @keydown="key($event, one)" @mouseenter="shown = one.label" @mouseleave="shown = ''" @focus="shown = one.label" @blur="shown = ''">
            <title>{{ one.label }}</title>
            <circle :cx="one.cx" :cy="one.cy" :r="12.5 * pixel" class="hw-reach" />
            <rect v-if="one.kind === 'wall'" class="hw-knob" :x="one.cx - 4 * pixel" :y="one.cy - 6 * pixel" :width="8 * pixel" :height="12 * pixel" :rx="2 * pixel" />
            <rect v-else-if="one.kind === 'boundary'" class="hw-knob" :x="one.cx - 2 * pixel" :y="one.cy - 6 * pixel" :width="4 * pixel" :height="12 * pixel" :rx="2 * pixel" />
            <path v-else-if="one.kind === 'cut'" class="hw-knob" :d="'M' + (one.cx - 4 * pixel) + ' ' + one.cy + 'h' + 8 * pixel + 'M' + one.cx + ' ' + (one.cy - 4 * pixel) + 'v' + 8 * pixel" />
            <rect v-else-if="one.kind === 'route'" class="hw-knob" :x="one.cx - 2.5 * pixel" :y="one.cy - 2.5 * pixel" :width="5 * pixel" :height="5 * pixel" />
            <circle v-else class="hw-knob" :cx="one.cx" :cy="one.cy" :r="3 * pixel" />
          </g>
        </svg>
      </div></div>
      <figcaption class="hw-note" aria-live="polite">
        <template v-if="held">{{ held.one.label }}: {{ dx ? 'along ' + far(dx) : '' }} {{ dy ? 'across ' + far(dy) : '' }}</template>
        <template v-else>{{ shown || named || (kinds.length ? 'Drag a handle, or move it with the arrow keys; click a part to see its values.' : '') }}</template>
      </figcaption>
      <ul v-if="listed.length" class="hw-listed" aria-label="What the numbers stand for">
        <li v-for="one in listed" :key="one.number"><span class="hw-number">{{ one.number }}</span>
          <button v-if="one.opens" class="hw-link" @click="$emit('pick', { part: one.part })" @mouseenter="named = one.text" @mouseleave="named = ''">{{ one.text }}</button>
          <span v-else>{{ one.text }}</span></li>
      </ul>
    </figure>`,
};
