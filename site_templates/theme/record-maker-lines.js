// One line about a pin: its place, its size, what its words say, and what is only guessed. The steps are
// those of builder/editing/drafts (pin_place, pin_text) and speller, over their patterns and words; a
// test gives both sides the same pasted texts.
(function () {
  "use strict";
  const said = window.loombookSaidWords, shapes = window.loombookShapeWords;
  const PIN = ["plugs", 0, "pins", 0], EMPTY = "empty", PAIRED = ["speaker", "line"];
  const KINDS = ["function", "channel", "colour", "leg"], ALL_KINDS = ["function", "channel", "colour", "state", "leg"];
  let table = null, patterns = null;

  function load(given) {
    table = given;
    patterns = {};
    ["with_plug", "run_on", "alone", "plug_head", "faced_head"].forEach((name) => { patterns[name] = new RegExp("^(?:" + given[name] + ")", "i"); });
    ["size", "only"].forEach((name) => { patterns[name] = new RegExp(given[name], "i"); });
  }

  function refuse(why) { throw Object.assign(new Error(why), { why: why }); }

  // ---- the place (pin_place.py) --------------------------------------------------------------------
  // {plug, cavity, rest}; null when a line begins with no place.
  function placeOf(text, plugs) {
    const line = inDigits(text.trim().replace(/^[*•\-–]+/, "").trim());
    for (const name of ["with_plug", "run_on"]) {
      const found = patterns[name].exec(line), numbered = found && name === "with_plug" && /^[0-9]+$/.test(found[2]);
      if (found && (numbered || !plugs.length || plugs.indexOf(found[1].toUpperCase()) >= 0 || !alone(line)))
        return { plug: found[1].toUpperCase(), cavity: found[2].toUpperCase(), rest: line.slice(found[0].length) };
    }
    return alone(line);
  }

  function alone(line) {
    const found = patterns.alone.exec(line);
    return found && { plug: "", cavity: found[1].toUpperCase(), rest: line.slice(found[0].length) };
  }

  function inDigits(line) {
    const words = fiveOf(line), bare = words.slice(0, 4).map((word) => word.toLowerCase().replace(/^[:,]+|[:,]+$/g, ""));
    const at = bare.findIndex((word) => table.numbers.indexOf(word) >= 0);
    if (at < 0 || words.slice(0, at).some((word) => /[0-9]/.test(word))) return line;
    words[at] = String(table.numbers.indexOf(bare[at]) + 1);
    return words.join(" ");
  }

  // The first four words of a line, and the rest as it stands.
  function fiveOf(line) {
    const words = [];
    let rest = line, found = null;
    while (words.length < 4 && (found = /^(\S+)\s+/.exec(rest))) { words.push(found[1]); rest = rest.slice(found[0].length); }
    return rest ? words.concat(rest) : words;
  }

  // ---- figures ---------------------------------------------------------------------------------------
  function figure(text, path) {
    const schema = shapes.schemaAt("vehicle", path), plain = text.trim(), found = /^([0-9]+)(?:([.,])([0-9]+))?$/.exec(plain);
    if (!found && [].concat(schema.type).indexOf("string") >= 0 && new RegExp(schema.pattern).test(plain)) return plain;
    const thousands = found && found[2] === "," && found[3].length === 3 && /[1-9]/.test(found[1]) && found[1].length <= 3;
    if (!found || thousands || /^0[0-9]/.test(found[1])) refuse("“" + plain + "” is no number that is sure");
    const value = Number(found[1] + (found[2] ? "." + found[3] : "")), low = schema.minimum, above = schema.exclusiveMinimum;
    if (value < low || value <= above || value > schema.maximum) refuse(plain + " is outside " + (low === undefined ? above : low) + " to " + schema.maximum);
    return value;
  }

  function sizeOf(text) {
    const plain = text.trim().toLowerCase(), wire = PIN.concat("wire");
    if (/(?:awg|ga)$/.test(plain)) return { size_awg: figure(plain.replace(/[awg ]+$/, ""), wire.concat("size_awg")) };
    return { size_mm2: figure(plain.replace(/\s*(?:sqmm|mm2|mm²|mm)\.?$/, ""), wire.concat("size_mm2")) };
  }

  function withoutSize(rest) {
    const found = patterns.size.exec(rest);
    if (!found) return { rest: rest, size: {} };
    return { rest: rest.slice(0, found.index), size: sizeOf(found[0].replace(/^[\s,;|]+|[\s,;|.]+$/g, "")) };
  }

  // The trims that a line holds for: "only sport", "(sport only)".
  function withoutTrims(rest) {
    const found = patterns.only.exec(rest);
    if (!found) return { rest: rest, trims: [] };
    const names = (found[1] || found[2]).split(/\s*(?:[,/&]|\band\b)\s*/i);
    return { rest: rest.slice(0, found.index), trims: names.map((name) => (name.toLowerCase().match(/[a-z0-9]+/g) || []).join("-")) };
  }

  // ---- words that are nearly known (speller.py) --------------------------------------------------------
  function plain(word) { return word.toLowerCase().replace(/[ \-_.]/g, ""); }

  function meanings(written, open) { return open.kinds.map((kind) => said.said(kind, written)).filter((one) => one.means.length); }

  function otherWords(written, open) {
    const others = table.speller.others, lower = written.trim().toLowerCase();
    const other = Object.prototype.hasOwnProperty.call(others, lower) ? others[lower] : null;
    if (other !== null && open.words.indexOf(other) >= 0) return [other];
    const all = meanings(written, open).reduce((list, one) => list.concat(one.means), []);
    return Array.from(new Set(all)).filter((word) => open.words.indexOf(word) >= 0);
  }

  function nearest(written, open) {
    const known = otherWords(written, open), target = plain(written);
    if (known.length) return known[0];
    let best = null, most = table.speller.close;
    open.words.forEach(function (word) {
      const like = shapes.likeness(plain(word), target);
      if (like > most || (like === most && (best === null || plain(word) > plain(best)))) { best = word; most = like; }
    });
    return best;
  }

  function isSure(written, near, open) {
    if (table.speller.doubtful.indexOf(written.trim().toLowerCase()) >= 0) return false;
    const others = otherWords(written, open), isElse = (one) => one.openEnd || (one.means.length > 1 && one.means.some((word) => open.words.indexOf(word) < 0));
    if (others.length > 1 || meanings(written, open).some(isElse)) return false;
    if (others.length || plain(near) === plain(written)) return true;
    const ranked = open.words.map((word) => shapes.likeness(plain(written), plain(word))).sort((a, b) => b - a);
    return ranked[0] >= table.speller.sure && ranked[0] - (ranked[1] || 0) >= table.speller.lead;
  }

  // ---- what a line says (pin_text.py) --------------------------------------------------------------------
  function of(found, kind) { return found.phrases.filter((one) => one.kind === kind); }

  function kindOf(word) { return KINDS.find((kind) => { const means = said.said(kind, word).means; return means.length === 1 && means[0] === word; }); }

  function sure(word) { return { means: [word], openEnd: "" }; }

  function settle(found, meant) {
    const has = (word) => Object.prototype.hasOwnProperty.call(meant, word);
    found.phrases.forEach((one) => { if (has(one.written)) one.meant = sure(meant[one.written]); });
    found.left.filter(has).forEach((word) => found.phrases.push({ kind: kindOf(meant[word]), written: word, meant: sure(meant[word]) }));
    found.left = found.left.filter((word) => !has(word));
  }

  function openWords(found) {
    const named = of(found, "function").length || of(found, "channel").length, coloured = of(found, "colour").length > 1;
    const does = named ? [] : functions(), colour = coloured ? [] : colours();
    return { words: does.concat(colour), kinds: named && !coloured ? ["colour"] : coloured && !named ? ["function"] : ALL_KINDS };
  }

  function guess(found) {
    found.left.slice().forEach(function (word) {
      const open = openWords(found), near = nearest(word, open);
      if (near === null || word.length < 3) return;
      found.left.splice(found.left.indexOf(word), 1);
      const phrase = { kind: kindOf(near), written: word, meant: sure(near) };
      found.phrases.push(phrase);
      if (!isSure(word, near, open) || word.length < 5) found.guessed.push(phrase);
    });
  }

  function functions() { return shapes.schemaAt("vehicle", PIN.concat("function")).enum; }

  function colours() { return shapes.schemaAt("vehicle", PIN.concat("wire", "base")).enum; }

  // What is said behind the place: {phrases, left, guessed, size, trims}; throws {why} for a size that is none.
  function readWords(text, meant) {
    const only = withoutTrims(text), parts = withoutSize(only.rest);
    const found = Object.assign(said.pinWords(parts.rest), { guessed: [], size: parts.size, trims: only.trims, text: text });
    settle(found, meant);
    guess(found);
    return found;
  }

  // {plug, cavity} besides; throws {why} when the line names no cavity.
  function readPin(text, plugs, meant) {
    const place = placeOf(text, plugs);
    if (!place || !place.rest.trim()) refuse("not complete: plug, cavity, then what the wire does");
    const plug = place.plug || (plugs.length === 1 ? plugs[0] : "");
    if (!plug) refuse("which plug? write its letter before the cavity");
    return Object.assign(readWords(place.rest, meant), { text: text, plug: plug, cavity: figure(place.cavity, PIN.concat("cavity")) });
  }

  // Words that stand for several things, and words that were guessed.
  function asked(found) { return found.phrases.filter((one) => !said.isSure(one.meant)).concat(found.guessed); }

  // Colours that were written short and not yet confirmed.
  function shortWords(found, meant) {
    return of(found, "colour").filter((one) => said.isSure(one.meant) && one.written !== one.meant.means[0] &&
      !Object.prototype.hasOwnProperty.call(meant, one.written) && found.guessed.indexOf(one) < 0);
  }

  // The values of a pin, null for an empty cavity; throws {why} for what is not known or missing.
  function pinOf(found) {
    if (asked(found).length) refuse("“" + asked(found)[0].written + "” has to be settled first");
    refuseLeft(found);
    const values = does(found), wire = of(found, "colour").map((one) => one.meant.means[0]);
    if (values.function === EMPTY) return found.trims.length ? refuse("empty holds for every car of the record; write not used for one trim") : null;
    if (found.trims.length) values.only_if = { trims: found.trims };
    if (wire.length) values.wire = Object.assign({ base: wire[0] }, wire[1] ? { stripe: wire[1] } : {}, found.size);
    else if (Object.keys(found.size).length) refuse("it has a size and no colour; write unknown for the colour");
    return values;
  }

  function refuseLeft(found) {
    if (!found.left.length) return;
    const written = "“" + found.left.join(" ") + "”", named = of(found, "function").length || of(found, "channel").length;
    if (of(found, "colour").length === 2) refuse(written + " is one too many: a wire has a colour and a stripe");
    refuse(written + (named ? " is no colour that is known" : " is nothing that is known"));
  }

  function does(found) {
    const first = (kind) => of(found, kind).map((one) => one.meant.means[0])[0], channel = first("channel"), leg = first("leg");
    if (!channel) {
      if (PAIRED.indexOf(first("function")) >= 0) refuse("which speaker, and which leg: plus or minus?");
      return { function: first("function") || refuse("say what the wire does, or unknown") };
    }
    if (!leg) refuse("which leg: plus or minus?");
    return { function: first("function") || "speaker", channel: channel, leg: leg };
  }

  window.loombookLines = { load: load, readWords: readWords, readPin: readPin, pinOf: pinOf, asked: asked, shortWords: shortWords, refuse: refuse,
    placeOf: placeOf, plugHead: (line) => patterns.plug_head.exec(line), facedHead: (line) => patterns.faced_head.exec(line) };
})();
