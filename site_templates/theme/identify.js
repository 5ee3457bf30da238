// What is this wire? The steps are those of builder/proof (judging, identify, splitting and
// next_test), line by line, over the table in identify-data.js; a test asks both the same.
// A reading: {state, quantity, value (null: open), against ("ground" or "other_leg"), battery
// (null: not read), load, minutes (null: not said)}.
(function () {
  "use strict";
  const TINY = 1e-9, judging = window.loombookJudge;
  let table = null;

  function load(given) { table = given; }

  // ---- words (wording.py) --------------------------------------------------------------
  function fixed(value, digits) {
    // Halves go to the even digit, as in the command; toFixed takes the larger one.
    const scale = Math.pow(10, digits), grown = value * scale, low = Math.floor(grown);
    if (Number.isInteger(value * 8) && grown - low === 0.5) return ((low % 2 ? low + 1 : low) / scale).toFixed(digits);
    return value.toFixed(digits);
  }

  function plain(number) { return String(Number(number.toPrecision(6))); }

  function figure(value, quantity) {
    if (value === null) return "open";
    return fixed(value + 0, digits(value, quantity)) + " " + table.quantities[quantity].unit;
  }

  function digits(value, quantity) {
    return ["dc_v", "ac_v", "ohm"].indexOf(quantity) >= 0 && Math.abs(value) < 100 ? 2 : 0;
  }

  function roundedDown(limit, places) {
    const scale = Math.pow(10, places), grown = limit * scale;
    return Math.floor(grown + Math.abs(grown) * TINY) / scale;
  }

  function end(bound, battery, quantity, inward) {
    if (bound === null) return "";
    if (bound[0] && battery === null) {
      return bound[1] ? "battery " + (bound[1] < 0 ? "−" : "+") + " " + plain(Math.abs(bound[1])) + " V" : "battery volts";
    }
    const limit = judging.limitAt(bound, battery || 0);
    return figure(inward * roundedDown(inward * limit, digits(limit, quantity)), quantity);
  }

  function limits(row, battery) {
    const low = end(row.low, battery, row.quantity, -1), high = end(row.high, battery, row.quantity, 1);
    if (row.low === null) return "at most " + high;
    if (row.high === null) return "at least " + low;
    if (row.low[0] === 0 && row.high[0] === 0 && row.low[1] === -row.high[1]) return "at most " + high + " either way";
    return low + " to " + high;
  }

  function readingWords(r) {
    const minutes = r.minutes !== null && r.state === "asleep" ? " " + plain(r.minutes) + " min" : "";
    const on = r.load === "none" ? "" : ", " + table.loads[r.load];
    return table.states[r.state].words + minutes + on + ": " + figure(r.value, r.quantity);
  }

  function article(name) {
    return ("aeiou".indexOf(name[0]) >= 0 ? "an " : "a ") + name;
  }

  function word(name) { return table.functions[name]; }

  function phrase(name) { return article(word(name)); }

  function together(names, last, most) {
    const shown = names.length > most + 1 ? most : names.length, words = names.slice(0, shown).map(phrase);
    if (names.length > shown) words.push((last === "or" ? "one of " : "") + (names.length - shown) + " others");
    const end = words.pop();
    return words.length ? words.join(", ") + " " + last + " " + end : end;
  }

  function joined(names, last) { return together(names, last, table.limits.leaders_shown); }

  // ---- one reading against one kind (judging.py) ------------------------------------------
  function needsBattery(row) { return judging.moves(row.low, row.high); }

  function findRow(r, kind) {
    return kind.rows.find((row) => row.states.indexOf(r.state) >= 0 && row.quantity === r.quantity &&
      row.against === r.against && (!row.loads.length || row.loads.indexOf(r.load) >= 0)) || null;
  }

  function outcome(r, row) {
    const where = judging.whereIn(row.low, row.high, r.value, r.battery);
    if (where === "unjudged") return "silent";
    const minutes = r.state === "asleep" ? r.minutes || 0 : Infinity;
    if (where === "in" || where === "none") return minutes >= row.meets_from_min ? "met" : "silent";
    return row.strict && minutes >= row.contradicts_from_min ? "contradicted" : "silent";
  }

  function whySilent(r, kind) {
    if (r.quantity === "ohm" && table.limits.dead_states.indexOf(r.state) < 0) {
      return readingWords(r) + ": ohms are read on dead circuits only, plug off or battery off";
    }
    return readingWords(r) + ": says nothing about " + article(kind.name);
  }

  function whyUndecided(r, row) {
    if (needsBattery(row) && r.battery === null) return "without battery volts it cannot be judged";
    if (r.state === "asleep" && (r.minutes || 0) < row.meets_from_min) {
      return "asleep counts from " + plain(row.meets_from_min) + " min on";
    }
    return row.note || "it fits more than one case";
  }

  function judge(r, kind) {
    const row = findRow(r, kind);
    if (row === null) return { outcome: "silent", sentence: whySilent(r, kind), row: null };
    const found = outcome(r, row), said = readingWords(r), band = limits(row, r.battery);
    let sentence = said + ": " + whyUndecided(r, row);
    if (found === "met") sentence = said + ", as " + article(kind.name) + " should: " + band;
    if (found === "contradicted") sentence = said + ", but " + article(kind.name) + " reads " + band;
    return { outcome: found, sentence: sentence, row: row };
  }

  // ---- ranking (candidates.py, identify.py) -----------------------------------------------------------------
  function isSolid(judged, r) {
    if (judged.outcome !== "met") return false;
    return r.state !== "asleep" || (r.minutes || 0) >= judged.row.proves_from_min;
  }

  function candidate(kind, readings) {
    const judged = readings.map((r) => judge(r, kind));
    const said = (what) => judged.filter((j) => j.outcome === what).map((j) => j.sentence);
    const met = judged.filter((j) => j.outcome === "met");
    const touched = judged.filter((j) => j.outcome !== "silent").map((j) => j.row);
    const solid = judged.filter((j, i) => isSolid(j, readings[i])).map((j) => j.row);
    return {
      kind: kind, met: said("met"), contradicted: said("contradicted"), silent: said("silent"),
      fits: met.filter((j) => j.row.strict).length,
      solid: solid.length,
      against: judged.map((j, i) => j.outcome === "contradicted" ? i : -1).filter((i) => i >= 0),
      loaded: judged.some((j, i) => j.outcome === "met" && readings[i].load !== "none"),
      proved: [].concat.apply([], solid.map((row) => row.proves)),
      house: [].concat.apply([], judged.map((j, i) => j.outcome === "silent" ? [] :
        j.row.house.concat(readings[i].state === "asleep" ? j.row.waits : []))),
      untested: kind.rows.filter((row) => touched.indexOf(row) < 0).length,
      settled: [].concat.apply([], met.map((j) => j.row.proves))
    };
  }

  function rank(c) {
    return [c.contradicted.length ? 1 : 0, c.contradicted.length, -c.met.length, -c.fits, c.met.length ? c.untested : 0];
  }

  function inOrder(a, b) {
    const x = rank(a), y = rank(b);
    for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return x[i] - y[i];
    return 0;
  }

  function functionsOf(candidates) {
    return candidates.map((c) => c.kind.function).filter((name, i, all) => all.indexOf(name) === i);
  }

  function identify(readings, skip) {
    const ranked = table.kinds.map((kind) => candidate(kind, readings)).sort(inOrder);
    const open = ranked.filter((c) => !c.contradicted.length), names = functionsOf(open);
    const lost = nothingFits(ranked);
    const top = lost ? [] : open.filter((c) => c.met.length === open[0].met.length), tie = functionsOf(top);
    const leading = names.length < 2 || !top.length ? [] : tie.length > 1 ? top : open;
    const next = propose(leading, readings, skip || []);
    const needed = names.length === 1 ? 1 : table.limits.readings_to_decide;
    const against = lost ? null : rival(ranked, tie), slips = lost ? slipsOf(ranked) : [];
    const decided = against === null && tie.length === 1 && ranked[0].fits > 0 && ranked[0].solid >= needed;
    return {
      candidates: ranked, open: names, tie: tie, next: next, decided: decided, slips: slips,
      verdict: verdict(ranked, names, tie, next, (skip || []).length > 0) + (lost ? wrongOne(slips, readings) : doubt(against)),
      raising: decided ? raisingOf(ranked[0], readings) : null,
      house: each([].concat.apply([], ranked.map((c) => c.house))).map((name) => table.house[name])
    };
  }

  function each(list) { return list.filter((one, i, all) => all.indexOf(one) === i); }

  // ---- where nothing fits (verdicts.py) ----------------------------------------------------------
  function nothingFits(ranked) {
    const speaking = ranked.filter((c) => c.met.length || c.contradicted.length);
    return speaking.length > 0 && speaking.every((c) => c.contradicted.length);
  }

  function slipsOf(ranked) {
    const freed = new Map();
    ranked.filter((c) => c.against.length === 1 && c.met.length).forEach((c) => {
      freed.set(c.against[0], (freed.get(c.against[0]) || []).concat(c.kind.function));
    });
    return Array.from(freed, (pair) => ({ reading: pair[0], frees: each(pair[1]) }));
  }

  function wrongOne(slips, readings) {
    return slips.map((s) => "; were “" + readingWords(readings[s.reading]) + "” wrong, it could be " +
      joined(s.frees, "or")).join("");
  }

  // ---- from named to proved (raising.py) -----------------------------------------------------------
  function isDue(row, missing, loaded) {
    if (!row.proves.length || !row.loads.length) return !loaded;
    return row.proves.some((name) => missing.indexOf(name) >= 0);
  }

  function raisingOf(c, readings) {
    const kind = c.kind, said = table.raising;
    const missing = kind.order.filter((name) => c.proved.indexOf(name) < 0);
    const nothing = { measurement: null, words: "", expect: "", mind: "", also: [], why: said.unprovable };
    if (!kind.order.length) return nothing;
    const due = kind.loaded.find((l) => isDue(kind.rows[l.row], missing, c.loaded));
    if (!due) {
      const why = !missing.length ? said.full : kind.never_loaded;
      return Object.assign(nothing, { also: missing.map((name) => kind.defining[name]), why: why });
    }
    const row = kind.rows[due.row], first = readings.find((r) => r.state === due.strong.state &&
      r.quantity === "dc_v" && r.load === "none" && r.against === "ground");
    const weak = first && first.value !== null && first.value < said.open_first_v;
    const m = weak ? due.weak : due.strong;
    const minds = kind.function === "ground" ? [] : (first ? [] : [said.open_first]).concat(said.up_to_its_fuse);
    return {
      measurement: m, words: instruction(m), expect: limits(row, batteryFor(due.strong.state, readings)), mind: minds.join(" "),
      also: missing.filter((name) => row.proves.indexOf(name) < 0).map((name) => kind.defining[name]), why: ""
    };
  }

  function rival(ranked, tie) {
    let most = null;
    ranked.forEach((c) => {
      if (!c.contradicted.length || tie.indexOf(c.kind.function) >= 0) return;
      if (most === null || c.met.length > most.met.length) most = c;
    });
    const needed = Math.max(ranked[0].met.length, table.limits.readings_to_decide);
    return most === null || most.met.length < needed ? null : most;
  }

  function doubt(c) {
    if (c === null) return "";
    const many = c.contradicted.length;
    return "; " + phrase(c.kind.function) + " meets " + c.met.length + " readings and " + many + " speak" +
      (many === 1 ? "s" : "") + " against it: take " + (many === 1 ? "it" : "them") + " again";
  }

  function verdict(ranked, open, tie, next, skipped) {
    if (nothingFits(ranked)) {
      const said = "contradicted everywhere: no kind of wire reads all of this";
      if (slipsOf(ranked).length) return said;
      return said + ", and no single wrong reading would explain it: begin again, battery volts first";
    }
    if (!ranked.some((c) => c.met.length && !c.contradicted.length)) return "the readings bear out nothing yet";
    if (tie.length === 1) return oneFits(ranked, open);
    const both = joined(tie, "and");
    if (next !== null) return "these readings cannot decide between " + both;
    if (skipped) return "these readings cannot decide between " + both + "; what could was skipped";
    const notes = ranked.filter((c) => tie.indexOf(c.kind.function) >= 0).map((c) => c.kind.note);
    const why = each(notes).filter(Boolean).join(" ");
    return ("these readings cannot decide, nor can any other of the table: " + joined(tie, "or") + ". " + why).trim();
  }

  function whichKind(ranked) {
    const best = ranked[0], kinds = ranked.filter((c) => c.kind.function === best.kind.function);
    if (kinds.length === 1) return "";
    const alike = kinds.filter((c) => c.contradicted.length === best.contradicted.length && c.met.length === best.met.length);
    const names = alike.map((c) => c.kind.name), last = names.pop();
    return " (" + (names.length ? names.join(", ") + " or " : "") + last + ")";
  }

  function oneFits(ranked, open) {
    const best = ranked[0], name = best.kind.function, one = phrase(name) + whichKind(ranked);
    if (open.length > 1) return one + " fits best; not ruled out: " + joined(open.filter((n) => n !== name), "or");
    if (!best.fits) return "only " + one + " is not ruled out, and nothing read so far proves it. " + best.kind.note;
    return one + ": nothing else in the table fits";
  }

  // ---- what to measure next (splitting.py, next_test.py); nothing is ever loaded here ----------
  function keyOf(m) { return [m.state, m.quantity, m.against, m.load].join("|"); }

  function spansOf(c) {
    const spans = new Map(), v = table.limits.test_battery_v;
    c.kind.rows.forEach((row) => row.states.forEach((state) => (row.loads.length ? row.loads : ["none"]).forEach((on) => {
      const m = { state: state, quantity: row.quantity, against: row.against, load: on };
      spans.set(keyOf(m), {
        m: m, row: row, strict: row.strict,
        low: row.low === null ? -Infinity : row.low[0] * v + row.low[1],
        high: row.high === null ? Infinity : row.high[0] * v + row.high[1],
        fresh: row.strict && row.proves.some((name) => c.settled.indexOf(name) < 0)
      });
    })));
    return { name: c.kind.function, spans: spans };
  }

  function separation(one, other) {
    if (!one || !other) return (one || other) && (one || other).fresh ? 0.25 : 0;
    if (one.low <= other.high && other.low <= one.high) return 0;
    return one.strict && other.strict ? 1 : one.strict || other.strict ? 0.5 : 0;
  }

  function apart(mine, theirs) {
    let total = 0;
    mine.forEach((one) => theirs.forEach((other) => { total += separation(one, other); }));
    return total / (mine.length * theirs.length);
  }

  function remaining(key, names, all) {
    const of = new Map(names.map((name) => [name, []]));
    all.forEach((one) => of.get(one.name).push(one.spans.get(key)));
    let together = 0;
    names.forEach((one) => names.forEach((other) => {
      together += 1 - (one === other ? 0 : apart(of.get(one), of.get(other)));
    }));
    return together / names.length;
  }

  function effort(m) { return table.states[m.state].effort; }

  function bestOf(options, names, all) {
    let best = null;
    options.forEach((m, key) => {
      const left = remaining(key, names, all), gain = (names.length - left) / effort(m);
      if (gain > TINY && (best === null || gain > best.gain + TINY)) best = { gain: gain, m: m, key: key, remaining: left };
    });
    return best;
  }

  // What the leading kinds read in a measurement, as text: two that read alike tell alike.
  function reads(key, all) {
    const bands = all.map((one) => {
      const span = one.spans.get(key);
      return span ? [String(span.low), String(span.high), span.strict] : null;
    });
    return JSON.stringify([key.split("|").slice(1), bands]);
  }

  function batteryFor(state, readings) {
    const moves = table.limits.moves_battery;
    if (moves.indexOf(state) >= 0) return null;
    const rest = readings.filter((r) => moves.indexOf(r.state) < 0 && r.battery).pop();
    return rest ? rest.battery : null;
  }

  function propose(leading, readings, skip) {
    const all = leading.map(spansOf), names = functionsOf(leading), options = new Map();
    const taken = readings.map(keyOf).concat(skip);
    all.forEach((one) => one.spans.forEach((span, key) => {
      if (span.m.load === "none" && taken.indexOf(key) < 0 && !options.has(key)) options.set(key, span.m);
    }));
    const likeSkipped = skip.map((key) => reads(key, all));
    const fresh = new Map(Array.from(options).filter((pair) => likeSkipped.indexOf(reads(pair[0], all)) < 0));
    const best = bestOf(fresh, names, all) || bestOf(options, names, all);
    return best && {
      measurement: best.m, key: best.key, remaining: best.remaining, words: instruction(best.m),
      expected: expected(best.key, all, readings), safety: safety(best.m)
    };
  }

  function instruction(m) {
    const how = table.quantities[m.quantity].words + " against " + table.against[m.against];
    return table.states[m.state].words + ": " + how + (m.quantity === "ohm" ? "" : ", " + table.loads[m.load]);
  }

  function expected(key, all, readings) {
    const said = new Map();
    all.forEach((one) => {
      if (!one.spans.has(key) || said.has(one.name)) return;
      const span = one.spans.get(key);
      said.set(one.name, limits(span.row, batteryFor(span.m.state, readings)));
    });
    const names = Array.from(said.keys()), bands = each(Array.from(said.values())).slice(0, table.limits.bands_shown);
    return bands.map((band) => together(names.filter((name) => said.get(name) === band), "or", table.limits.alike_shown) +
      " reads " + band);
  }

  function safety(m) {
    const by = table.safety, parts = [by.states[m.state] || "", m.quantity === "ohm" ? by.dead : by.live];
    return parts.concat(m.against === "other_leg" ? by.pair : "").filter(Boolean).join(" ");
  }

  window.loombookIdentify = { load: load, identify: identify, judge: judge, readingWords: readingWords, word: word, phrase: phrase };
})();
