// Explains words of the trade where they stand: marked in the text without touching it, told under the pointer, at a tap
// and at the keyboard's focus, and listed for the whole page.
(() => {
  const TERMS = []; // the page puts the table here
  const SKIPPED = "script, style, textarea, input, select, svg, canvas, .cm-editor, .hw-bubble, .hw-words";
  const PIECES = "section, table, main";
  const forms = TERMS.flatMap((term) => term.spelled.map((form) => [form, term]));
  const exact = new Map(forms);
  const folded = new Map(forms.filter(([, term]) => !/[A-Z]/.test(term.name)).map(([form, term]) => [form.toLowerCase(), term]));
  const quoted = forms.map(([form]) => form).sort((a, b) => b.length - a.length).map((form) => form.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  const pattern = new RegExp("(?<![\\w-])(" + quoted.join("|") + ")(?![\\w-])", "gi");
  const isAnother = (text, hit) => hit.term.notBefore.includes((/^ ([a-z]+)/.exec(text.slice(hit.end)) || [])[1]); // "leaves the": the verb
  const termsOf = (text) => [...text.matchAll(pattern)].map((hit) => ({ at: hit.index, end: hit.index + hit[0].length,
    term: exact.get(hit[0]) || folded.get(hit[0].toLowerCase()) })).filter((hit) => hit.term && !isAnother(text, hit));
  let found = new Map(); // text node: the terms in it

  const scan = () => {
    found = new Map();
    const ranges = [], told = new Map();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT, (node) =>
      node.parentElement && !node.parentElement.closest(SKIPPED) ? NodeFilter.FILTER_ACCEPT : NodeFilter.FILTER_REJECT);
    while (walker.nextNode()) {
      const node = walker.currentNode, hits = termsOf(node.data);
      if (!hits.length) continue;
      found.set(node, hits);
      const piece = node.parentElement.closest(PIECES) || document.body;
      if (!told.has(piece)) told.set(piece, new Set());
      for (const hit of hits) { // marked once in each piece of the page
        if (told.get(piece).has(hit.term)) continue;
        told.get(piece).add(hit.term);
        const range = new Range();
        range.setStart(node, hit.at);
        range.setEnd(node, hit.end);
        ranges.push(range);
      }
    }
    if (window.Highlight && CSS.highlights) CSS.highlights.set("hw-term", new Highlight(...ranges));
  };

  const bubble = document.createElement("div");
  bubble.className = "hw-bubble";
  bubble.id = "hw-bubble";
  bubble.setAttribute("role", "tooltip");
  bubble.hidden = true;
  const hide = () => { bubble.hidden = true; };
  const tell = (terms, box) => {
    bubble.replaceChildren(...terms.slice(0, 3).map((term) => {
      const line = document.createElement("p"), name = document.createElement("b");
      name.textContent = term.name + ": ";
      line.append(name, term.says);
      return line;
    }));
    bubble.hidden = false;
    const width = Math.min(320, innerWidth - 16);
    bubble.style.width = width + "px";
    bubble.style.left = Math.max(8, Math.min(box.left, innerWidth - width - 8)) + "px";
    const below = box.bottom + 6;
    bubble.style.top = (below + bubble.offsetHeight > innerHeight ? Math.max(4, box.top - bubble.offsetHeight - 6) : below) + "px";
  };
  const under = (event) => {
    const at = document.caretPositionFromPoint ? document.caretPositionFromPoint(event.clientX, event.clientY) : null;
    const old = !at && document.caretRangeFromPoint ? document.caretRangeFromPoint(event.clientX, event.clientY) : null;
    const node = at ? at.offsetNode : old && old.startContainer, offset = at ? at.offset : old && old.startOffset;
    const hit = (found.get(node) || []).find((one) => one.at <= offset && offset <= one.end);
    if (!hit || hit.end > node.data.length) return null;
    const range = new Range();
    range.setStart(node, hit.at);
    range.setEnd(node, hit.end);
    const box = range.getBoundingClientRect(); // a caret snaps to the nearest letter, however far that is
    const near = event.clientX >= box.left - 3 && event.clientX <= box.right + 3 && event.clientY >= box.top - 3 && event.clientY <= box.bottom + 3;
    return near ? { term: hit.term, box } : null;
  };
  let waiting = 0;
  const point = (event) => {
    clearTimeout(waiting);
    const hit = under(event);
    if (!hit) return hide();
    waiting = setTimeout(() => tell([hit.term], hit.box), event.type === "click" ? 0 : 350);
  };

  window.hushwrightWords = () => {
    scan();
    const terms = new Set([...found.values()].flat().map((hit) => hit.term));
    const sheet = document.createElement("dialog"), list = document.createElement("dl"), close = document.createElement("button");
    sheet.className = "hw-words";
    sheet.setAttribute("aria-label", "Words on this page");
    for (const term of TERMS.filter((one) => terms.has(one))) {
      const name = document.createElement("dt"), says = document.createElement("dd");
      name.textContent = term.name;
      says.textContent = term.says;
      list.append(name, says);
    }
    if (!list.children.length) list.append("No word of this page needs explaining.");
    close.type = "button";
    close.className = "hw-plain";
    close.textContent = "Close";
    close.onclick = () => sheet.close();
    sheet.onclose = () => sheet.remove();
    sheet.append(list, close);
    document.querySelector(".hw-page").append(sheet);
    sheet.showModal();
  };

  let later = 0;
  addEventListener("DOMContentLoaded", () => {
    document.body.append(bubble);
    new MutationObserver((changes) => {
      if (changes.every((one) => bubble.contains(one.target))) return;
      clearTimeout(later);
      later = setTimeout(() => (window.requestIdleCallback || setTimeout)(scan), 400);
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
    scan();
    let last = 0;
    addEventListener("pointermove", (event) => {
      if (event.pointerType !== "mouse" || event.buttons || event.timeStamp - last < 60) return;
      last = event.timeStamp;
      point(event);
    });
    addEventListener("click", point);
    addEventListener("focusin", (event) => {
      const focused = event.target;
      if (!focused.matches || !focused.matches("button:focus-visible, [tabindex]:focus-visible, summary:focus-visible")) return hide();
      const terms = [...new Set(termsOf((focused.innerText || "").slice(0, 200)).map((hit) => hit.term))];
      if (terms.length && focused.offsetHeight < 200) tell(terms, focused.getBoundingClientRect());
      else hide();
    });
    addEventListener("scroll", hide, true);
    addEventListener("keydown", (event) => { if (event.key === "Escape") hide(); });
  });
})();
