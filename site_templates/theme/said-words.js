// What a word stands for where a record is written, over the word table in the page's data. The steps
// are those of builder/model/said (plain_said, colours_said, pin_words); a test gives both the same lines.
(function () {
  "use strict";
  const PARTS = /[()[\]"|;\t]|,(?![0-9])/g;
  const BETWEEN = /\s*[/\\+,&|]\s*|\s+(?:with|w\/?|and|on|stripe|tracer)\s+(?:an?\s+)?|\s*[-–]\s*/;
  const BEHIND = /[\s\-_]+(?:stripe[ds]?|tracer|trace|wire|cable)$/;
  const FUNCTION_KINDS = ["function", "channel"], NOTHING = { means: [], openEnd: "" };
  let table = null, noise = null;

  function load(given) { table = given; noise = new Set(given.noise); }

  function plain(written) {
    return written.toLowerCase().replace(/\//g, " / ").replace(/’/g, "'").replace(/[. ]+$/, "")
      .replace(/([a-z0-9])-(?=[a-z])|([a-z])\.(?=[a-z])/g, "$1$2 ").replace(/[\s_]+/g, " ").trim();
  }

  // {means, openEnd}: nothing, one word of the records, or several between which it is asked back.
  function said(kind, written) {
    const words = table.tables[kind], word = plain(written);
    if (!Object.prototype.hasOwnProperty.call(words, word)) return NOTHING;
    return { means: words[word][0], openEnd: words[word][1] };
  }

  function known(kind, written) { return said(kind, written).means.length > 0; }

  function isSure(meant) { return meant.means.length === 1 && !meant.openEnd; }

  function choices(meant) { return meant.openEnd ? meant.means.concat(meant.openEnd) : meant.means; }

  // ---- base and stripe (wires.py) ----------------------------------------------------------------
  function coloursSaid(text) {
    const whole = text.trim().toLowerCase().replace(/_/g, " ").replace(BEHIND, "");
    if (known("colour", whole)) return [{ written: whole, meant: said("colour", whole) }];
    let parts = whole.split(BETWEEN).filter((part) => part.trim()).map((part) => part.replace(BEHIND, ""));
    if (parts.length === 1) parts = halves(parts[0]);
    return parts.map((part) => ({ written: part, meant: said("colour", part) }));
  }

  function halves(text) {
    const words = plain(text).split(" ").filter(Boolean);
    for (let cut = 1; cut < words.length; cut++) {
      const first = words.slice(0, cut).join(" "), second = words.slice(cut).join(" ");
      if (known("colour", first) && known("colour", second)) return [first, second];
    }
    return words.length > 1 ? words : [text];
  }

  // ---- all of one pin (pin_words.py) ---------------------------------------------------------------
  // {phrases: [{kind, written, meant}], left: [word]}
  function pinWords(text) {
    const found = { phrases: [], left: [] }, words = wordsOf(text);
    let at = 0;
    while (at < words.length) at += take(words, at, found);
    return found;
  }

  function wordsOf(text) {
    const line = text.toLowerCase().replace(/\(\+\)/g, "+").replace(/\(-\)/g, "-").replace(/[−–]/g, "-").replace(/\bw\/(?=\s)/g, "with").replace(/\//g, " / ").replace(PARTS, " ");
    return line.split(/\s+/).filter(Boolean).reduce((all, word) => all.concat(parted(word)), []).map((word) => word.replace(/\.+$/, "") || word);
  }

  function parted(word) {
    if (FUNCTION_KINDS.concat("colour").some((kind) => known(kind, word))) return [word];
    const stem = word.replace(/[:+-]+$/, ""), sign = word.slice(stem.length).replace(/^:+|:+$/g, "");
    if (stem && (sign === "+" || sign === "-") && known("channel", stem)) return [stem, sign];
    const bare = word.replace(/:+$/, ""), parts = bare.split("-").filter(Boolean);
    if (parts.length === 2 && parts.every((part) => known("colour", part))) return parts;
    return bare ? [bare] : [];
  }

  function take(words, at, found) {
    for (let span = Math.min(table.longest, words.length - at); span > 0; span--) {
      const text = words.slice(at, at + span).join(" "), kind = openKinds(found).find((one) => known(one, text));
      if (kind) { found.phrases.push({ kind: kind, written: text, meant: said(kind, text) }); return span; }
    }
    if (!noise.has(words[at])) found.left.push(words[at]);
    return 1;
  }

  function openKinds(found) {
    const of = (kind) => found.phrases.filter((one) => one.kind === kind), functions = of("function"), channels = of("channel");
    const paired = !functions.length || functions[0].meant.means.some((one) => one === "speaker" || one === "line"), kinds = [];
    if (channels.length && !of("leg").length) kinds.push("leg");
    if (paired && !channels.length) kinds.push("channel");
    if (!functions.length && !channels.length) kinds.push("function");
    return of("colour").length < 2 ? kinds.concat("colour") : kinds;
  }

  window.loombookSaidWords = { load: load, said: said, isSure: isSure, choices: choices, coloursSaid: coloursSaid, pinWords: pinWords };
})();
