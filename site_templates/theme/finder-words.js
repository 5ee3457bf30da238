// A question taken apart. The steps are those of builder/finder/tokens.py and understanding.py,
// line by line, over the word tables in finder-data.js; a test asks both the same questions.
(function () {
  "use strict";
  var LONGEST_QUESTION = 160, LAST_YEAR = 9999, TYPO_LENGTH = 4;
  var DASH = /([0-9]) *[-–—] *(?=[0-9])/g;
  var BREAK = /[\x00- \x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff,;:?!()[\]"“”\ud800-\udfff]+/;
  var YEAR = /^(?:my)?((?:19|20)[0-9]{2})$/, SHORT_YEAR = /^(?:my|')([0-9]{2})$/;
  var ONWARD = /^((?:19|20)[0-9]{2})\+$/, SPAN = /^((?:19|20)[0-9]{2})-((?:19|20)?[0-9]{2})$/;
  var SHORT_SPAN = /^([0-9]{2})-([0-9]{2})$/, UNFINISHED_YEAR = /^(?:19|20)[0-9]?$/;
  var SPOT = /^(?:([a-z]{1,3}[0-9]{0,2})[.-]([0-9]{1,3})|([a-z]{1,2})([0-9]{1,3}))$/;
  var words = null;

  // Tables of words from outside are maps without a prototype: "constructor" is a word like others.
  function setOf(list) {
    var set = Object.create(null);
    list.forEach(function (word) { set[word] = true; });
    return set;
  }

  function loadWords(data) {
    words = { known: Object.create(null), list: [], longest: data.longestWord, sets: {}, years: Object.create(null) };
    data.meanings.forEach(function (row) {
      var single = row[2].filter(function (word) { return word.indexOf(" ") < 0; });
      var several = row[2].filter(function (word) { return word.indexOf(" ") >= 0; });
      single.concat(several).forEach(function (word) {
        if (!words.known[word]) words.list.push(word);
        words.known[word] = { kind: row[0], means: row[1] };
      });
    });
    Object.keys(data.sets).forEach(function (name) { words.sets[name] = setOf(data.sets[name]); });
    Object.keys(data.yearWords).forEach(function (word) { words.years[word] = data.yearWords[word]; });
  }

  function split(text) { return text.split(BREAK); }

  function tokensOf(text) {
    var short = Array.from(text).slice(0, LONGEST_QUESTION).join("").toLowerCase().replace(/\//g, " / ");
    var parts = split(short.replace(DASH, "$1-")), found = [];
    parts.forEach(function (part) {
      var isId = part.split("-").length > 2;
      (isId ? part.split("-") : [part]).forEach(function (word) { if (word) found.push(word); });
    });
    return { words: found, typing: parts[parts.length - 1] !== "" };
  }

  // ---- years ---------------------------------------------------------------------------
  function yearsAt(tokens, at) {
    var list = tokens.words, kind = words.years[list[at]] || "", year = kind ? yearOf(list, at + 1) : 0, found, years;
    if (year) {
      found = kind === "from" ? from(list, at + 1, year) : [1, side(kind, year)];
      years = found[1];
      return [found[0] + 1, [years[0], found[0] > 1 || kind !== "from" ? years[1] : LAST_YEAR]];
    }
    if ((year = yearOf(list, at))) return from(list, at, year);
    if ((found = inOne(list[at]))) return [1, found];
    if (tokens.typing && at === list.length - 1 && UNFINISHED_YEAR.test(list[at])) {
      var width = Math.pow(10, 4 - list[at].length);
      return [1, [Number(list[at]) * width, Number(list[at]) * width + width - 1]];
    }
    return null;
  }

  function yearOf(list, at) {
    if (at >= list.length) return 0;
    var found = YEAR.exec(list[at]);
    if (found) return Number(found[1]);
    found = SHORT_YEAR.exec(list[at]);
    return found ? century(Number(found[1])) : 0;
  }

  function century(short) { return short + (short < 50 ? 2000 : 1900); }

  function from(list, at, year) {
    var after = at + 1 < list.length ? list[at + 1] : "";
    var other = words.sets.yearsBetween[after] ? yearOf(list, at + 2) : 0;
    if (other) return [3, [Math.min(year, other), Math.max(year, other)]];
    if (words.sets.yearsOnward[after] || (after === "on" && at + 2 === list.length)) return [2, [year, LAST_YEAR]];
    return [1, [year, year]];
  }

  function side(kind, year) {
    return kind === "after" ? [year + 1, LAST_YEAR] : [0, kind === "until" ? year : year - 1];
  }

  function inOne(word) {
    var found = ONWARD.exec(word), first, last;
    if (found) return [Number(found[1]), LAST_YEAR];
    if ((found = SPAN.exec(word))) {
      first = Number(found[1]);
      last = Number(found[2]);
      if (last < 100) last += first - first % 100;
    } else if ((found = SHORT_SPAN.exec(word))) {
      first = century(Number(found[1]));
      last = century(Number(found[2]));
    } else return null;
    return [Math.min(first, last), Math.max(first, last)];
  }

  function spot(word) {
    var found = SPOT.exec(word);
    return found ? [found[1] || found[3], found[2] || found[4]] : null;
  }

  // ---- items ---------------------------------------------------------------------------
  function itemsOf(tokens) {
    var items = [], at = 0, fact = 0, found;
    while (at < tokens.words.length) {
      if (words.sets.and[tokens.words[at]]) {
        fact++;
        at++;
        continue;
      }
      found = itemAt(tokens, at, fact);
      if (found[1]) items.push(found[1]);
      at += found[0];
    }
    return items;
  }

  // `typed` is what was typed, where it was taken for `said`.
  function item(kind, said, fact, value, years, typed) {
    return { kind: kind, said: said, fact: fact, value: value || [], years: years || null, typed: typed || "" };
  }

  function itemAt(tokens, at, fact) {
    var list = tokens.words, said = list[at], found;
    if ((found = yearsAt(tokens, at))) return [found[0], item("years", said, fact, [], found[1])];
    if ((found = begunPhrase(tokens, at))) return [list.length - at, knownItem(found, fact, list.slice(at).join(" "))];
    if ((found = colourAt(list, at))) return [found[0], item("colour", list.slice(at, at + found[0]).join(" "), fact, found[1])];
    var known = knownAt(list, at), place = known[0] < 2 ? placeAt(list, at) : "";
    if (place) return [2, item(place, said + " " + list[at + 1], fact, [list[at + 1]])];
    if (known[1]) return [known[0], knownItem(known[1], fact)];
    if (words.sets.fuse[said]) return [1, item("cavity", said, fact, ["fuse"])];
    if ((found = spot(said))) return [1, item("spot", said, fact, found)];
    return [1, words.sets.noise[said] ? null : item("name", said, fact)];
  }

  // The known words that the last words of a question begin: "hot at all". A last word that is
  // known itself ("wheel key") begins nothing: it is never replaced.
  function begunPhrase(tokens, at) {
    var rest = tokens.words.slice(at).join(" "), known = words.known[rest] || words.known[tokens.words[tokens.words.length - 1]];
    return !tokens.typing || at + 1 === tokens.words.length || known ? "" : begun(rest);
  }

  function knownItem(word, fact, typed) {
    var known = words.known[word];
    return item(known.kind, word, fact, known.kind === "colour" ? [known.means[0], ""] : known.means, null, typed);
  }

  function knownAt(list, at) {
    for (var span = Math.min(words.longest, list.length - at); span > 0; span--) {
      var word = list.slice(at, at + span).join(" "), spaced = word.replace(/[-.]/g, " ");
      if (words.known[word]) return [span, word];
      if (words.known[spaced]) return [span, spaced];
    }
    return [1, ""];
  }

  function placeAt(list, at) {
    var after = at + 1 < list.length ? list[at + 1] : "", short = after.length < 4;
    if (words.sets.cavity[list[at]] && short && /^[0-9]+$/.test(after)) return "cavity";
    var named = short && /^[0-9a-z]+$/.test(after) && !words.known[after] && (after.length === 1 || !words.sets.noise[after]);
    return words.sets.plug[list[at]] && named ? "plug" : "";
  }

  function colourAt(list, at) {
    var base = oneColour(list, at);
    if (!base) return joinedColours(list[at]);
    var after = at + base[0];
    if (list[after] === "/") after++;
    if (after < list.length && words.sets.joining[list[after]]) after++;
    if (list[after] === "a") after++;
    var stripe = after < list.length ? oneColour(list, after) : null;
    if (!stripe) return [base[0], [base[1], ""]];
    var end = after + stripe[0];
    if (end < list.length && words.sets.stripe[list[end]]) end++;
    return [end - at, [base[1], stripe[1]]];
  }

  function oneColour(list, at) {
    var found = knownAt(list, at), known = found[1] && words.known[found[1]];
    return known && known.kind === "colour" ? [found[0], known.means[0]] : null;
  }

  function joinedColours(word) {
    var dash = word.indexOf("-"), base = words.known[word.slice(0, dash)], stripe = words.known[word.slice(dash + 1)];
    if (dash < 0 || !base || !stripe || base.kind !== "colour" || stripe.kind !== "colour") return null;
    return [1, [base.means[0], stripe.means[0]]];
  }

  // ---- the question ----------------------------------------------------------------------
  function questionOf(items) {
    var question = { names: [], years: null, facts: [] }, facts = {}, numbers = [];
    items.forEach(function (one) {
      if (one.kind === "name") question.names.push(one.said);
      else if (one.kind === "years") question.years = one.years;
      else {
        if (!facts[one.fact]) {
          facts[one.fact] = [];
          numbers.push(one.fact);
        }
        facts[one.fact].push(one);
      }
    });
    question.facts = numbers.map(function (number) { return factOf(facts[number]); });
    return question;
  }

  function factOf(items) {
    var functions = valuesOf(items, "function"), channels = valuesOf(items, "channel");
    if (channels.length && !functions.length) functions = ["speaker", "line"];
    return {
      said: items.map(function (one) { return one.said; }).join(" ").replace(/ \/ /g, "/"),
      functions: functions, channels: channels,
      colours: items.filter(function (one) { return one.kind === "colour"; }).map(function (one) { return one.value; }),
      plugs: valuesOf(items, "plug"), cavities: valuesOf(items, "cavity"),
      spots: items.filter(function (one) { return one.kind === "spot"; }).map(function (one) {
        return { word: one.said, plug: one.value[0], cavity: one.value[1] };
      })
    };
  }

  function valuesOf(items, kind) {
    var values = [];
    items.forEach(function (one) {
      if (one.kind !== kind) return;
      one.value.forEach(function (value) { if (values.indexOf(value) < 0) values.push(value); });
    });
    return values;
  }

  // ---- words that were begun or misspelt (names.py) ----------------------------------------
  function oneSlip(a, b) {
    if (Math.abs(a.length - b.length) > 1) return false;
    var start = 0, shorter = Math.min(a.length, b.length);
    while (start < shorter && a[start] === b[start]) start++;
    var restA = a.slice(start), restB = b.slice(start);
    return restA.slice(1) === restB.slice(1) || restA.slice(1) === restB || restA === restB.slice(1) ||
      (restB.length > 1 && restA.slice(0, 2) === restB[1] + restB[0] && restA.slice(2) === restB.slice(2));
  }

  // The first known word with this beginning, of this kind if there is one.
  function begun(beginning, kind) {
    var found = words.list.filter(function (word) { return word.lastIndexOf(beginning, 0) === 0; });
    return found.filter(function (word) { return words.known[word].kind === kind; })[0] || found[0] || "";
  }

  function beginsNoise(word) {
    return Object.keys(words.sets.noise).some(function (noise) { return noise.lastIndexOf(word, 0) === 0; });
  }

  function slipped(word) {
    if (word.length < TYPO_LENGTH) return "";
    return words.list.filter(function (one) {
      return one.length >= TYPO_LENGTH && one.indexOf(" ") < 0 && oneSlip(word, one);
    })[0] || "";
  }

  window.loombookWords = {
    load: loadWords, split: split, tokensOf: tokensOf, itemsOf: itemsOf, item: item, knownItem: knownItem,
    questionOf: questionOf, oneSlip: oneSlip, begun: begun, beginsNoise: beginsNoise, slipped: slipped, TYPO_LENGTH: TYPO_LENGTH
  };
})();
