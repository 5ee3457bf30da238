// Every change of a draft can be taken back, and done again: what was typed, pressed, said, pasted or
// removed. The states are kept beside the draft, so that a reload loses none; typing in one field is one
// change. Where the browser refuses to keep them, they last until the page is left.
(function () {
  "use strict";
  const PREFIX = "loombook:maker:past:", MOST = 60, MOST_LETTERS = 600000;
  let draft = null, now = "", past = [], ahead = [], field = "";

  function stateOf(one) { return JSON.stringify({ record: one.record, housings: one.housings, meant: one.meant || {}, pasted: one.pasted || "" }); }

  function texts(list) { return Array.isArray(list) && list.every((one) => typeof one === "string") ? list : []; }

  function begin(one) {
    let kept = {};
    try { kept = JSON.parse(localStorage.getItem(PREFIX + one.key)) || {}; } catch (refused) { /* It begins anew. */ }
    draft = one;
    now = stateOf(one);
    past = texts(kept.past);
    ahead = texts(kept.ahead);
    field = "";
  }

  function keep() {
    while (past.length > MOST || past.concat(ahead).reduce((sum, one) => sum + one.length, 0) > MOST_LETTERS) (past.length ? past : ahead).shift();
    try { localStorage.setItem(PREFIX + draft.key, JSON.stringify({ past: past, ahead: ahead })); } catch (refused) { forget(draft.key); }
  }

  function forget(key) { try { localStorage.removeItem(PREFIX + key); } catch (refused) { /* Nothing was kept. */ } }

  // Take down a change that was made; `from` is the field that is typed in, or "". A quiet change is
  // part of the next one: a cavity that is only opened is none by itself.
  function note(from, quiet) {
    const next = stateOf(draft);
    if (quiet || next === now) return;
    if (!from || from !== field) past.push(now);
    now = next;
    ahead = [];
    field = from;
    keep();
  }

  function rest() { field = ""; }

  function restore(text) {
    const state = JSON.parse(text);
    Object.assign(draft, { record: state.record, housings: state.housings, meant: state.meant, pasted: state.pasted });
    now = text;
    field = "";
    keep();
  }

  // Go one change back; what was only opened since is all that is taken back of it.
  function back() {
    const before = stateOf(draft);
    if (before === now) return move(past, ahead);
    restore(now);
    return differs(JSON.parse(before), JSON.parse(now), []);
  }

  // Go one change back or forward; the path of what differs, or null when there is none.
  function move(from, to) {
    if (!from.length) return null;
    const before = stateOf(draft), text = from.pop();
    to.push(before);
    restore(text);
    return differs(JSON.parse(before), JSON.parse(text), []);
  }

  // The path of the first value that is not the same in both.
  function differs(a, b, path) {
    if (a === null || b === null || typeof a !== "object" || typeof b !== "object" || Array.isArray(a) !== Array.isArray(b)) return path;
    for (const key of Array.from(new Set(Object.keys(a).concat(Object.keys(b))))) {
      const step = Array.isArray(a) ? Number(key) : key;
      if (!(key in a) || !(key in b)) return path.concat(step);
      if (JSON.stringify(a[key]) !== JSON.stringify(b[key])) return differs(a[key], b[key], path.concat(step));
    }
    return path;
  }

  window.loombookUndo = { begin: begin, note: note, rest: rest, forget: forget,
    back: back, forward: () => move(ahead, past), counts: () => [past.length + (stateOf(draft) === now ? 0 : 1), ahead.length] };
})();
