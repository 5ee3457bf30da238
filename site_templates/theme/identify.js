// What is this wire? The steps are those of builder/proof (judging, identify, splitting and
// next_test), line by line, over the table in identify-data.js; a test asks both the same.
// A reading: {state, quantity, value (null: open), against ("ground" or "other_leg"), battery
// (null: not read), load, minutes (null: not said)}.
(function () {
  "use strict";
  const TINY = 1e-9;
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
    const digits = ["dc_v", "ac_v", "ohm"].indexOf(quantity) >= 0 && Math.abs(value) < 100 ? 2 : 0;
    return fixed(value + 0, digits) + " " + table.quantities[quantity].unit;
  }

  function end(bound, battery, quantity) {
    if (bound === null) return "";
    if (bound[0] && battery === null) {
      return bound[1] ? "battery " + (bound[1] < 0 ? "" : "+") + fixed(bound[1], 2) + " V" : "battery volts";
    }
    return figure(bound[0] * (battery || 0) + bound[1], quantity);
  }

  function limits(row, battery) {
    const low = end(row.low, battery, row.quantity), high = end(row.high, battery, row.quantity);
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
    if (name.indexOf("nothing") === 0) return name;
    return ("aeiou".indexOf(name[0]) >= 0 ? "an " : "a ") + name;
  }

  function word(name) { return name.replace(/_/g, " "); }

  // ---- one reading against one kind (judging.py) ------------------------------------------
  function needsBattery(row) {
    return [row.low, row.high].some((bound) => bound !== null && bound[0] !== 0);
  }

  function findRow(r, kind) {
    return kind.rows.find((row) => row.states.indexOf(r.state) >= 0 && row.quantity === r.quantity &&
      row.against === r.against && (!row.loads.length || row.loads.indexOf(r.load) >= 0)) || null;
  }

  function within(value, row, battery) {
    const number = value === null ? Infinity : value;
    if (row.low !== null && number < row.low[0] * battery + row.low[1] - TINY) return false;
    return row.high === null || number <= row.high[0] * battery + row.high[1] + TINY;
  }

  function outcome(r, row) {
    if (needsBattery(row) && r.battery === null) return "silent";
    const minutes = r.state === "asleep" ? r.minutes || 0 : Infinity;
    if (within(r.value, row, r.battery || 0)) return minutes >= row.meets_from_min ? "met" : "silent";
    return row.strict && minutes >= row.contradicts_from_min ? "contradicted" : "silent";
  }

  function whySilent(r, kind) {
    if (r.quantity === "ohm" && table.limits.dead_states.indexOf(r.state) < 0) {
      return readingWords(r) + ": ohms are read on dead circuits only, plug pulled or battery off";
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

  // ---- ranking (identify.py) -----------------------------------------------------------------
  function isSolid(judged, r) {
    if (judged.outcome !== "met") return false;
    return r.state !== "asleep" || (r.minutes || 0) >= judged.row.proves_from_min;
  }

  function candidate(kind, readings) {
    const judged = readings.map((r) => judge(r, kind));
    const said = (what) => judged.filter((j) => j.outcome === what).map((j) => j.sentence);
    const met = judged.filter((j) => j.outcome === "met");
    const touched = judged.filter((j) => j.outcome !== "silent").map((j) => j.row);
    return {
      kind: kind, met: said("met"), contradicted: said("contradicted"), silent: said("silent"),
      fits: met.filter((j) => j.row.strict).length,
      solid: judged.filter((j, i) => isSolid(j, readings[i])).length,
      untested: kind.rows.filter((row) => touched.indexOf(row) < 0).length,
      settled: [].concat.apply([], met.map((j) => j.row.proves))
    };
  }

  function rank(c) {
    return [c.contradicted.length ? 1 : 0, c.contradicted.length, -c.met.length, -c.fits, c.untested];
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
    const top = open.filter((c) => c.met.length === open[0].met.length), tie = functionsOf(top);
    const leading = names.length < 2 ? [] : tie.length > 1 ? top : open;
    const next = propose(leading, readings, skip || []);
    const needed = names.length === 1 ? 1 : table.limits.readings_to_decide;
    const against = rival(ranked, tie);
    return {
      candidates: ranked, open: names, tie: tie, next: next,
      decided: against === null && tie.length === 1 && ranked[0].solid >= needed,
      verdict: verdict(ranked, names, tie, next, (skip || []).length > 0) + doubt(against)
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
    return "; " + word(c.kind.function) + " meets " + c.met.length + " readings and " + many + " speak" +
      (many === 1 ? "s" : "") + " against it: take " + (many === 1 ? "it" : "them") + " again";
  }

  function verdict(ranked, open, tie, next, skipped) {
    if (!open.length) return "every kind of pin in the table is contradicted: check the readings and the states";
    if (!ranked.some((c) => c.met.length && !c.contradicted.length)) return "the readings bear out nothing yet";
    if (open.length === 1) return word(tie[0]) + ": nothing else in the table fits";
    if (tie.length === 1) {
      return word(tie[0]) + " fits best; not ruled out: " + open.filter((n) => n !== tie[0]).map(word).join(", ");
    }
    const names = tie.map(word).join(", ");
    if (next !== null) return "these readings cannot decide between " + names;
    if (skipped) return "these readings cannot decide between " + names + "; what could was skipped";
    const notes = ranked.filter((c) => tie.indexOf(c.kind.function) >= 0).map((c) => c.kind.note);
    const why = notes.filter((note, i) => note && notes.indexOf(note) === i).join(" ");
    return ("these readings cannot decide, nor can any other of the table: " + names + ". " + why).trim();
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

  function propose(leading, readings, skip) {
    const all = leading.map(spansOf), names = functionsOf(leading), options = new Map();
    const taken = readings.map(keyOf).concat(skip);
    all.forEach((one) => one.spans.forEach((span, key) => {
      if (span.m.load === "none" && taken.indexOf(key) < 0 && !options.has(key)) options.set(key, span.m);
    }));
    let best = null;
    options.forEach((m, key) => {
      const left = remaining(key, names, all), gain = (names.length - left) / effort(m);
      if (gain > TINY && (best === null || gain > best.gain + TINY)) best = { gain: gain, m: m, key: key, remaining: left };
    });
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
    const volts = readings.map((r) => r.battery).find((v) => v !== null), said = new Map();
    all.forEach((one) => {
      if (one.spans.has(key) && !said.has(one.name) && said.size < table.limits.leaders_shown) {
        said.set(one.name, word(one.name) + " reads " + limits(one.spans.get(key).row, volts === undefined ? null : volts));
      }
    });
    return Array.from(said.values());
  }

  function safety(m) {
    const by = table.safety, parts = [by.states[m.state] || "", m.quantity === "ohm" ? by.dead : by.live];
    return parts.concat(m.against === "other_leg" ? by.pair : "").filter(Boolean).join(" ");
  }

  window.loombookIdentify = { load: load, identify: identify, readingWords: readingWords, word: word };
})();
