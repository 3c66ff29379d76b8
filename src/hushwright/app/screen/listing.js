// The build files of a workspace, each with its verdict at a glance.
export default {
  props: { builds: { type: Array, default: () => [] } },
  emits: ["open", "duplicate", "download"],
  template: `
    <ul class="hw-listing">
      <li v-for="one in builds" :key="one.name" :data-build="one.name">
        <a :href="one.link" class="hw-build"><b>{{ one.title || one.name }}</b><span class="hw-note">{{ one.name }}</span></a>
        <span :class="['hw-glance', one.outcome]"><span class="hw-sign" aria-hidden="true">{{ one.sign }}</span> {{ one.glance }}</span>
        <span class="hw-groups"><span v-for="each in one.groups" :class="['hw-chip', each.outcome]"><span aria-hidden="true">{{ each.sign }}</span>
          {{ each.group }} <span class="hw-unseen">{{ each.word }}</span></span></span>
        <span class="hw-acts">
          <button type="button" class="hw-quiet" @click="$emit('duplicate', { name: one.name })">Duplicate</button>
          <button type="button" class="hw-quiet" @click="$emit('download', { name: one.name })">Download</button>
        </span>
      </li>
      <li v-if="!builds.length" class="hw-note">There is no build file in this folder yet; each of the ways above makes the first one.</li>
    </ul>`,
};
