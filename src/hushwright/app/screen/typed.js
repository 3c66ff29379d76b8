// A field keeps what is being typed in it: an answer that comes late changes it only once nobody is typing there.
window.hwTyped = {
  mounted(el, told) {
    el.value = told.value ?? "";
    el.addEventListener("input", () => { el.hwTyping = true; });
    el.addEventListener("change", () => { el.hwTyping = false; });
    el.addEventListener("blur", () => { el.hwTyping = false; });
  },
  updated(el, told) {
    const text = told.value ?? "", here = document.activeElement === el;
    if (el.value === text || (here && (el.hwTyping || told.value === told.oldValue))) return;
    const all = here && el.selectionStart === 0 && el.selectionEnd === el.value.length;
    el.value = text;
    if (all) el.select();
  },
};
