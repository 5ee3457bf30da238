// From a question to answers. The steps are those of builder/finder/search.py, facts.py and
// asking.py, over the columns of finder-book.js; a test asks both the same questions.
(function () {
  "use strict";
  var MOST_VEHICLES = 8, BEGINNING = 3, EXACT = 3, LIKE = 2, TURNED = 1;
  var MOST_PARTS = 32; // so many are fetched for one answer at most: some 350 kB
  var TOO_MANY = "So many cars could have that wire that the book would have to be fetched whole: add a make, a model or a year.";
  var NAMED = { missing: 0, colour: EXACT, fitting: 0 };
  var NO_WIRE = "colour not recorded", NOT_RECORDED = "Not recorded for this car.";
  var words = window.loombookWords, book = window.loombookBook, told = window.loombookSaid, pages = window.loombookPages, has = Object.prototype.hasOwnProperty;
  var PARTS_OF_PAIR = { woofer: true, tweeter: true };

  // ---- which rows answer a fact (facts.py) -------------------------------------------------
  function isPart(word) { return has.call(PARTS_OF_PAIR, word); }

  function channelFits(channel, wanted) {
    var places = wanted.filter(function (w) { return !isPart(w); }), ends = wanted.filter(isPart);
    var placed = !places.length || places.some(function (p) { return channel === p || channel.indexOf(p + "-") === 0; });
    return placed && (!ends.length || ends.some(function (p) {
      return channel.length >= p.length && channel.slice(-p.length) === p;
    }));
  }

  function fits(fact, row) {
    return (!fact.functions.length || fact.functions.indexOf(row.fn) >= 0) && channelFits(row.channel, fact.channels) &&
      (!fact.plugs.length || fact.plugs.indexOf(row.plugLower) >= 0) &&
      (!fact.cavities.length || fact.cavities.some(function (c) { return row.cavities.indexOf(c) >= 0; })) &&
      fact.spots.every(function (s) {
        return row.plugLower === s.word || (row.plugLower === s.plug && row.cavities.indexOf(s.cavity) >= 0);
      });
  }

  function order(functions, row) {
    if (functions.length) return functions.indexOf(row.fn);
    return row.fn === "unknown" ? 1 : row.fn === "not_used" ? 2 : 0;
  }

  // The numbers of the rows of a layout that fit a fact but for its colours, in their order.
  function fittingRows(fact, layoutNumber) {
    if (!fact.byLayout) fact.byLayout = {};
    if (!fact.byLayout[layoutNumber]) {
      var found = [];
      book.layout(layoutNumber).rows.forEach(function (row, i) {
        if (fits(fact, row)) found.push([order(fact.functions, row), i]);
      });
      found.sort(function (a, b) { return a[0] - b[0] || a[1] - b[1]; });
      fact.byLayout[layoutNumber] = found;
    }
    return fact.byLayout[layoutNumber];
  }

  function legLevel(colour, wire) {
    var stroke = wire.indexOf("/"), base = stroke < 0 ? wire : wire.slice(0, stroke), stripe = stroke < 0 ? "" : wire.slice(stroke + 1);
    if (base === colour[0] && stripe === colour[1]) return EXACT;
    if (colour[1]) return stripe === colour[0] && base === colour[1] ? TURNED : 0;
    return colour[0] === base || colour[0] === stripe ? LIKE : 0;
  }

  function level(colours, cavity, wire) {
    var legs = cavity === "fuse" ? [] : wire.split(" and ").filter(function (leg) { return leg !== NO_WIRE; });
    return colours.reduce(function (least, colour) {
      return Math.min(least, legs.reduce(function (most, leg) { return Math.max(most, legLevel(colour, leg)); }, 0));
    }, EXACT);
  }

  // As `level`; wires of one colour are many, and are compared once.
  function levelIn(fact, cavity, wire) {
    if (cavity === "fuse") return level(fact.colours, cavity, wire);
    if (!fact.levels) fact.levels = Object.create(null);
    if (fact.levels[wire] === undefined) fact.levels[wire] = level(fact.colours, cavity, wire);
    return fact.levels[wire];
  }

  // Rows of a car that answer a fact, and how well their colours fit; null: its part is not here.
  function rowsFor(fact, at) {
    var number = book.data().columns.layout[at], found = fittingRows(fact, number);
    if (!fact.colours.length || !found.length) return { rows: found.map(second), colour: found.length ? EXACT : 0 };
    var wires = book.wires(at), rows = book.layout(number).rows, kept = [], best = 0;
    if (!wires) return null;
    found.forEach(function (pair) {
      var fit = levelIn(fact, rows[pair[1]].cavity, wires.texts[wires.set[pair[1]]]);
      best = Math.max(best, fit);
      if (fit) kept.push([pair[0], -fit, pair[1]]);
    });
    if (!best) return { rows: fact.functions.length || fact.plugs.length || fact.cavities.length || fact.spots.length ? found.map(second) : [], colour: 0 };
    kept = kept.filter(function (one) { return -one[1] > TURNED || best === TURNED; });
    kept.sort(function (a, b) { return a[0] - b[0] || a[1] - b[1] || a[2] - b[2]; });
    return { rows: kept.map(function (one) { return one[2]; }), colour: best };
  }

  function second(pair) { return pair[1]; }

  // What serves where nothing is what was asked for; nothing where a place was asked for.
  function insteadOf(fact, at) {
    var serving = book.data().instead[fact.functions[0]], meant = mainFact();
    if (!serving || fact.plugs.length || fact.cavities.length || fact.spots.length) return [];
    meant.functions = serving[0];
    meant.channels = fact.channels;
    return rowsFor(meant, at).rows;
  }

  function noteOf(fact, noSwitched, found, instead) {
    var first = fact.functions[0];
    if (noSwitched && book.data().switched.indexOf(first) >= 0) return noSwitched;
    if (!found.rows.length) {
      var missing = fact.said ? fact.said + ": not recorded for this car" : NOT_RECORDED.slice(0, -1);
      return instead.length ? missing + "; " + book.data().instead[fact.functions[0]][1] + "." : missing + ".";
    }
    if (found.colour === 0) return "No wire of that colour here; this is what is recorded.";
    if (found.colour !== TURNED) return "";
    var asked = fact.colours.filter(function (colour) { return colour[1]; })[0];
    return "No " + asked[0] + " wire with " + asked[1] + " stripe here; " + asked[1] + " with " + asked[0] + " stripe is.";
  }

  // ---- who fits (search.py) ------------------------------------------------------------------
  function mainFact() {
    return { said: "", functions: book.data().mainAnswers, channels: [], colours: [], plugs: [], cavities: [], spots: [] };
  }

  function asksNothing(fact) {
    return !fact.functions.length && !fact.channels.length && !fact.colours.length && !fact.plugs.length &&
      !fact.cavities.length && !fact.spots.length;
  }

  // How the spots of a question fit the names of a car, as "01": a spot that is a name of it is no place.
  function maskOf(plan, at) {
    var mask = "";
    plan.spotScore = 0;
    for (var i = 0; i < plan.spots.length; i++) {
      var fit = book.fit(plan.spots[i], at);
      plan.spotScore += fit;
      mask += fit ? "1" : "0";
    }
    return mask;
  }

  function factsFor(plan, at) { return factsOf(plan, maskOf(plan, at)); }

  function factsOf(plan, mask) {
    if (!plan.byMask[mask]) {
      var number = -1, facts = plan.question.facts.map(function (fact) {
        var copy = Object.assign({}, fact, { byLayout: null, levels: null });
        copy.spots = fact.spots.filter(function () { return mask[++number] === "0"; });
        return copy;
      }).filter(function (fact) { return !asksNothing(fact); });
      plan.byMask[mask] = facts;
    }
    return plan.byMask[mask];
  }

  function planOf(question, forgiving) {
    var spots = [];
    question.facts.forEach(function (fact) { fact.spots.forEach(function (s) { spots.push(book.fitsOf(s.word, false)); }); });
    return {
      question: question, spots: spots, byMask: {}, main: mainFact(), years: question.years, told: {},
      alike: question.facts.every(function (fact) { return !fact.colours.length; }),
      makes: book.makesNamed(question.names), names: question.names.map(function (name) { return book.fitsOf(name, forgiving); })
    };
  }

  // Whether any car of a model may answer: where no variant and no id fits a name, the model has to.
  function mayAnswer(plan, group) {
    return (!plan.makes || plan.makes.indexOf(group.make) >= 0) &&
      plan.names.every(function (found) { return found.group[group.at] > 0 || found.beside; });
  }

  // Places in the book of every car that answers, best first. `limits`: {gone, first, end, years}.
  function rankedBy(question, forgiving, limits) {
    var plan = planOf(question, forgiving), ranks = { fewest: Infinity, buckets: new Map(), missing: new Set() };
    if (plan.names.some(function (found) { return !found.any; })) return { plan: plan, found: [], need: [] };
    book.shape().groups.forEach(function (group) {
      var first = Math.max(group.first, limits.first), end = Math.min(group.first + group.count, limits.end);
      if (first < end && ranks.missing.size <= MOST_PARTS && mayAnswer(plan, group)) rankGroup(plan, limits, group.at, first, end, ranks);
    });
    var keys = Array.from(ranks.buckets.keys()).sort(function (a, b) { return a - b; });
    var found = Array.prototype.concat.apply([], keys.map(function (one) { return ranks.buckets.get(one); }));
    return { plan: plan, found: found, need: Array.from(ranks.missing) };
  }

  function rankGroup(plan, limits, group, first, end, ranks) {
    var columns = book.data().columns, years = plan.years, year = limits.year, gone = limits.gone, last = -1, bucket = null;
    var froms = columns.from, spans = columns.years, variants = columns.variant, ids = columns.id, names = plan.names;
    for (var at = first; at < end; at++) {
      var from = froms[at], to = from + spans[at];
      if (years && (from > years[1] || years[0] > to)) continue;
      if (year && (from > year || year > to)) continue;
      if (gone && gone[at]) continue;
      var total = 0, slips = 0, fit = 1;
      for (var i = 0; i < names.length && fit; i++) {
        var name = names[i];
        fit = Math.max(name.group[group], name.variant[variants[at]], name.id[ids[at]]);
        if (fit === book.SLIP) slips++;
        total += fit;
      }
      if (!fit || slips > ranks.fewest) continue;
      var key = keyOf(plan, at, total, ranks.missing);
      if (key < 0) continue;
      if (slips < ranks.fewest) {
        ranks.fewest = slips;
        ranks.buckets.clear();
        last = -1;
      }
      if (key !== last) {
        bucket = ranks.buckets.get(key);
        if (!bucket) ranks.buckets.set(key, bucket = []);
        last = key;
      }
      bucket.push(at);
    }
  }

  // The lower the better: names, facts without a row, colours; -1 for a car that does not answer. Where
  // names alone are said, no row is looked at.
  function keyOf(plan, at, total, missing) {
    var mask = maskOf(plan, at);
    total += plan.spotScore;
    var told = total && !factsOf(plan, mask).length ? NAMED : answeredBy(plan, mask, at);
    if (!told) {
      missing.add(book.partOf(at));
      return -1;
    }
    return total || told.fitting ? ((1023 - total) * 64 + Math.min(told.missing, 63)) * 4 + EXACT - told.colour : -1;
  }

  // How a car answers the facts; null while its part is not here. Where no wire is asked for, all cars
  // of one layout whose names fit the same words answer alike, and are asked once.
  function answeredBy(plan, mask, at) {
    var layout = book.data().columns.layout[at], known = plan.told[mask];
    if (!known) known = plan.told[mask] = new Array(book.data().layouts.length);
    if (plan.alike && known[layout]) return known[layout];
    var facts = factsOf(plan, mask), told = { missing: 0, colour: EXACT, fitting: 0 };
    if (!facts.length) told.fitting = fittingRows(plan.main, layout).length;
    for (var i = 0; i < facts.length; i++) {
      var found = rowsFor(facts[i], at);
      if (!found) return null;
      if (!found.rows.length) told.missing++;
      if (found.colour) told.fitting += found.rows.length;
      told.colour = Math.min(told.colour, found.colour);
    }
    known[layout] = told;
    return told;
  }

  // The ways to read a question, the plainest first; the last leaves out a word not yet asked.
  function readings(text) {
    var tokens = words.tokensOf(text), items = words.itemsOf(tokens), last = items[items.length - 1], all = [];
    if (!items.length) return all;
    all.push({ items: items, forgiving: false, dropped: "" });
    var kind = items.length > 1 && items[items.length - 2].kind === "colour" ? "colour" : "";
    var open = tokens.typing && last.kind === "name" && !book.isKnown(last.said);
    var alike = kind === "colour" && told.mayBe(last.said);
    var word = open && !alike && last.said.length > 1 ? words.begun(last.said, kind) : "";
    var completed = word ? items.slice(0, -1).concat([words.knownItem(word, last.fact, last.said)]) : items;
    if (word) all.push({ items: completed, forgiving: false, dropped: "" });
    var changed = false, corrected = completed.map(function (item) {
      var better = correctedItem(item);
      changed = changed || better !== item;
      return better;
    });
    if (changed) all.push({ items: corrected, forgiving: false, dropped: "" });
    all.push({ items: corrected, forgiving: true, dropped: "" });
    if (open && (last.said.length < BEGINNING || words.beginsNoise(last.said))) {
      all.push({ items: items.slice(0, -1), forgiving: false, dropped: last.said });
    }
    return all;
  }

  function correctedItem(item) {
    if (item.kind !== "name" || book.fitsOf(item.said, false).any) return item;
    var word = (item.said.length >= BEGINNING ? words.begun(item.said) : "") || words.slipped(item.said);
    if (word) return words.knownItem(word, item.fact, item.said);
    return item.said.length < 4 && /^[0-9]+$/.test(item.said) ? words.item("cavity", item.said, item.fact, [item.said], null, item.said) : item;
  }

  function allCars() { return { first: 0, end: book.shape().count }; }

  // {plan, found: places in the book, need: parts to fetch before the answer is known, read: what
  // was forgiven, missed: why nothing answers, unread: why it is not known what answers}
  function search(text, limits) {
    var short = words.cut(text), asked = told.withNewIds(short[0], book.data().renamed), named = pages.partsSaid(asked.text), all = readings(named.rest);
    var result = { plan: null, found: [], need: [] }, last = { items: [] };
    for (var i = 0; i < all.length && !result.found.length && !result.need.length; i++) {
      if (all[i].items.length) result = rankedBy(words.questionOf(all[i].items), all[i].forgiving, limits || allCars());
      if (result.found.length || !all[i].dropped) last = all[i];
    }
    var cutOff = short[1] ? [{ said: short[1], words: [], why: told.TOO_LONG }] : [];
    result.read = asked.read.concat(cutOff, named.read, told.readItems(last.items));
    result.missed = "";
    result.unread = result.need.length > MOST_PARTS ? TOO_MANY : "";
    result.parts = named.parts;
    result.planned = pages.plansAsked(asked.text, named.parts);
    if (result.unread) result.found = result.need = [];
    else if (result.found.length) result.read = result.read.concat(readOf(result, last));
    else if (!result.need.length && !(named.parts.length && !last.items.length)) result.missed = told.missed(words.questionOf(last.items));
    return result;
  }

  function readOf(result, reading) {
    var names = told.readNames(result.plan.question, result.found.slice(0, MOST_VEHICLES), reading.forgiving);
    return reading.dropped ? names.concat([{ said: reading.dropped, words: [], why: told.mayBe(reading.dropped) }]) : names;
  }

  // ---- answers ---------------------------------------------------------------------------------
  // The answer of one car, or null while its part is not here; `parts` are those that were named.
  function answerAt(plan, at, parts) {
    var wires = book.wires(at), layout = book.layout(book.data().columns.layout[at]), seen = {}, rows = [], notes = [];
    if (!wires) return null;
    var facts = plan ? factsFor(plan, at) : [];
    if (!facts.length) {
      rows = rowsFor(mainFact(), at).rows.map(function (i) { return rowAt(layout, wires, i); });
      if (layout.noSwitched) notes.push(layout.noSwitched);
    }
    facts.forEach(function (fact) {
      var found = rowsFor(fact, at), instead = found.rows.length ? [] : insteadOf(fact, at);
      var note = noteOf(fact, layout.noSwitched, found, instead);
      if (note && notes.indexOf(note) < 0) notes.push(note);
      found.rows.concat(instead).forEach(function (i) {
        var row = rowAt(layout, wires, i), key = JSON.stringify(row);
        if (!seen[key]) rows.push(row);
        seen[key] = true;
      });
    });
    var all = layout.rows.map(function (row, i) { return rowAt(layout, wires, i); });
    (parts || []).forEach(function (part) {
      if (part.kind === "converter" && wires.plans.indexOf(part.id) < 0) notes.push("No plan with " + part.called + " is made for this car; its page has those that are.");
    });
    return { entry: book.entry(at), rows: rows, notes: notes, all: all, plans: wires.plans };
  }

  function rowAt(layout, wires, i) {
    var row = layout.rows[i];
    return {
      fn: row.fn, channel: row.channel, plug: row.plug, cavity: row.cavity, wire: wires.texts[wires.set[i]],
      grade: book.data().grades[Number(wires.grades[i])], warning: row.warning
    };
  }

  function find(text) {
    var result = search(text);
    return result.found.slice(0, MOST_VEHICLES).map(function (at) { return answerAt(result.plan, at, result.parts); });
  }

  // ---- which record is my car? (asking.py) ---------------------------------------------------------
  function pairsOf(ids) {
    var sorted = ids.slice().sort(), pairs = [];
    sorted.forEach(function (one, i) {
      sorted.slice(i + 1).forEach(function (other) { pairs.push(one + " " + other); });
    });
    return pairs;
  }

  function cut(ask, open) {
    var said = Object.create(null), order = [];
    ask.choices.forEach(function (choice) {
      var left = choice.leaves.filter(function (id) { return open.has(id); }), key = left.join(" ");
      if (!said[key]) {
        said[key] = [];
        order.push(left);
      }
      said[key].push(choice.words);
    });
    return { question: ask.question, cost: ask.cost, choices: order.map(function (left) {
      return { words: said[left.join(" ")].join(" or "), leaves: left };
    }) };
  }

  function worthAsking(asks, openIds) {
    var together = pairsOf(openIds), open = new Set(openIds), kept = [];
    asks.forEach(function (ask) {
      var short = cut(ask, open), alike = new Set();
      short.choices.forEach(function (choice) { pairsOf(choice.leaves).forEach(function (pair) { alike.add(pair); }); });
      var left = together.filter(function (pair) { return alike.has(pair); });
      if (left.length < together.length) {
        kept.push(short);
        together = left;
      }
    });
    return kept;
  }

  function idOf(at) { return book.entry(at).id; }

  // The questions between the records of one model, from the part that holds them.
  function sistersOf(at) {
    var part = book.part(book.partOf(at)), group = part && part.sisters.filter(function (one) { return one[0].indexOf(at) >= 0; })[0];
    if (!group) return null;
    return {
      same: group[2].map(function (pair) { return pair.map(idOf); }),
      asks: group[1].map(function (ask) {
        return { question: part.texts[ask[0]], cost: ask[1], choices: ask[2].map(function (choice) {
          return { words: part.texts[choice[0]], leaves: choice[1].map(idOf) };
        }) };
      })
    };
  }

  // What to ask between the answers of the best answer's model, or null when one is left.
  function whichCar(found, unknown) {
    var groupOf = book.shape().groupOf, places = found.filter(function (at) { return groupOf[at] === groupOf[found[0]]; });
    var group = places.length > 1 ? sistersOf(places[0]) : null;
    if (!group) return null;
    var open = places.map(idOf).sort(), set = new Set(open);
    var asks = group.asks.filter(function (ask) { return (unknown || []).indexOf(ask.question) < 0; });
    return { places: places, open: open, asks: worthAsking(asks, open), same: group.same.filter(function (pair) {
      return set.has(pair[0]) && set.has(pair[1]);
    }) };
  }

  window.loombookFinder = {
    load: book.load, find: find, search: search, answerAt: answerAt, whichCar: whichCar, allCars: allCars,
    idOf: idOf, MOST_VEHICLES: MOST_VEHICLES
  };
})();
