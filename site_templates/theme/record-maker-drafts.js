// Drafts, kept on this device only: one key a draft, so that one that is broken costs no other.
(function () {
  "use strict";
  const PREFIX = "loombook:maker:draft:";

  function isDraft(draft) {
    return draft !== null && typeof draft === "object" && draft.record !== null && typeof draft.record === "object" &&
      !Array.isArray(draft.record) && Array.isArray(draft.housings) && draft.housings.every((one) => one !== null && typeof one === "object");
  }

  function read(key) {
    try {
      const draft = JSON.parse(localStorage.getItem(PREFIX + key));
      return isDraft(draft) ? Object.assign(draft, { key: key }) : null;
    } catch (refused) { return null; }
  }

  // All drafts, the newest first.
  function list() {
    let keys = [];
    try { keys = Object.keys(localStorage); } catch (refused) { return []; }
    return keys.filter((key) => key.indexOf(PREFIX) === 0).map((key) => read(key.slice(PREFIX.length))).filter(Boolean)
      .sort((a, b) => String(b.saved).localeCompare(String(a.saved)));
  }

  // Keep a draft; false when this browser refuses.
  function keep(draft) {
    try {
      const kept = { saved: new Date().toISOString(), record: draft.record, housings: draft.housings, meant: draft.meant || {}, pasted: draft.pasted || "" };
      localStorage.setItem(PREFIX + draft.key, JSON.stringify(kept));
      return true;
    } catch (refused) { return false; }
  }

  function forget(key) { try { localStorage.removeItem(PREFIX + key); } catch (refused) { /* Nothing was kept. */ } }

  function newKey() { return Date.now().toString(36) + Math.random().toString(36).slice(2, 6); }

  // A random word for a car; a digit among letters, so that it is no word of any language.
  function randomTag() {
    const letters = "abcdefghkmnprstuvwxyz", digits = "23456789", numbers = crypto.getRandomValues(new Uint32Array(5));
    const pick = (from, at) => from[numbers[at] % from.length];
    return pick(letters, 0) + pick(digits, 1) + pick(letters, 2) + pick(digits, 3) + pick(letters, 4);
  }

  window.loombookDrafts = { list: list, read: read, keep: keep, forget: forget, newKey: newKey, randomTag: randomTag };
})();
