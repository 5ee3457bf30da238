// Drafts, kept on this device only: one key a draft, so that one that is broken costs no other.
(function () {
  "use strict";
  const PREFIX = "loombook:maker:draft:", GONE = "loombook:maker:gone";

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
      const kept = { saved: new Date().toISOString(), record: draft.record, housings: draft.housings, meant: draft.meant || {}, pasted: draft.pasted || "", photos: draft.photos || [] };
      localStorage.setItem(PREFIX + draft.key, JSON.stringify(kept));
      return true;
    } catch (refused) { return false; }
  }

  // Delete a draft. The one that was deleted last is kept aside, so that a slip costs nothing.
  function forget(key) {
    dropGone();
    try {
      localStorage.setItem(GONE, JSON.stringify({ key: key, text: localStorage.getItem(PREFIX + key) }));
    } catch (refused) { /* It is deleted all the same. */ }
    try { localStorage.removeItem(PREFIX + key); } catch (refused) { /* Nothing was kept. */ }
  }

  function lastGone() {
    try {
      const kept = JSON.parse(localStorage.getItem(GONE)), draft = JSON.parse(kept.text);
      return isDraft(draft) ? Object.assign(draft, { key: kept.key, text: kept.text }) : null;
    } catch (refused) { return null; }
  }

  // Forget the deleted draft for good.
  function dropGone() {
    const one = lastGone();
    if (one) {
      window.loombookUndo.forget(one.key);
      window.loombookMakerPhotos.forget(one);
    }
    try { localStorage.removeItem(GONE); } catch (refused) { /* Nothing was kept. */ }
  }

  function bringBack() {
    const one = lastGone();
    try { localStorage.setItem(PREFIX + one.key, one.text); localStorage.removeItem(GONE); } catch (refused) { /* It stays aside. */ }
  }

  function newKey() { return Date.now().toString(36) + Math.random().toString(36).slice(2, 6); }

  // A random word for a car; a digit among letters, so that it is no word of any language.
  function randomTag() {
    const letters = "abcdefghkmnprstuvwxyz", digits = "23456789", numbers = crypto.getRandomValues(new Uint32Array(5));
    const pick = (from, at) => from[numbers[at] % from.length];
    return pick(letters, 0) + pick(digits, 1) + pick(letters, 2) + pick(digits, 3) + pick(letters, 4);
  }

  window.loombookDrafts = { list: list, read: read, keep: keep, forget: forget, lastGone: lastGone, bringBack: bringBack, dropGone: dropGone, newKey: newKey, randomTag: randomTag };
})();
