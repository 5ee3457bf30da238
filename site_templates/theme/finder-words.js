// A question taken apart, over the words and the grammar in finder-data.js. The steps are those of
// builder/finder/tokens.py, matching.py and understanding.py; a test asks both the same questions.
(function () {
  "use strict";
  var LONGEST_QUESTION = 160, SHOWN_OF_REST = 20, TYPO_LENGTH = 4;
  var DASH = /([0-9]) *[-–—] *(?=[0-9])/g;
  var BREAK = /[\x00- \x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff,;:?!()[\]"“”\ud800-\udfff]+/;
  var words = null;

  // Tables of words from outside are maps without a prototype: "constructor" is a word like others.
  function setOf(list) {
    var set = Object.create(null);
    list.forEach(function (word) { set[word] = true; });
    return set;
  }

  function loadWords(data) {
    words = { known: Object.create(null), list: [], longest: data.longestWord, sets: {}, rules: [], like: Object.create(null) };
    data.meanings.forEach(function (row) {
      var single = row[2].filter(function (word) { return word.indexOf(" ") < 0; });
      var several = row[2].filter(function (word) { return word.indexOf(" ") >= 0; });
      single.concat(several).forEach(function (word) {
        if (!words.known[word]) words.list.push(word);
        words.known[word] = { kind: row[0], means: row[1] };
      });
    });
    Object.keys(data.sets).forEach(function (name) { words.sets[name] = setOf(data.sets[name]); });
    words.rules = data.grammar.map(function (row) { return { kind: row[0], pattern: row[1], value: row[2] }; });
    words.rules.forEach(function (rule) {
      rule.pattern.forEach(function (part) { if (part[0] === "like") words.like[part[1]] = new RegExp("^(?:" + part[1] + ")$"); });
    });
  }

  function split(text) { return text.split(BREAK); }

  // The part of a question that is read, and with what word the rest begins, or "".
  function cut(text) {
    var letters = Array.from(text), rest = split(letters.slice(LONGEST_QUESTION).join("")).filter(Boolean)[0] || "";
    return [letters.slice(0, LONGEST_QUESTION).join(""), rest.slice(0, SHOWN_OF_REST) + (rest.length > SHOWN_OF_REST ? "…" : "")];
  }

  function tokensOf(text) {
    var parts = split(text.toLowerCase().replace(/\//g, " / ").replace(DASH, "$1-")), found = [];
    parts.forEach(function (part) {
      var isId = part.split("-").length > 2;
      (isId ? part.split("-") : [part]).forEach(function (word) { if (word) found.push(word); });
    });
    return { words: found, typing: parts[parts.length - 1] !== "" };
  }

  // ---- the grammar (matching.py) -----------------------------------------------------------
  // A part of a pattern: [test, of, may be missing, must not fit]. What fits: {span, texts}.
  function caught(span, texts) { return { span: span, texts: texts || [] }; }

  function firstRule(tokens, at) {
    for (var i = 0; i < words.rules.length; i++) {
      var found = fit(tokens, at, words.rules[i].pattern);
      if (found) return { rule: words.rules[i], caught: found };
    }
  }

  function fit(tokens, at, pattern) {
    var all = caught(0);
    for (var i = 0; i < pattern.length; i++) {
      var found = one(tokens, at + all.span, pattern[i]);
      if (pattern[i][3]) found = found ? null : caught(0);
      if (!found && !pattern[i][2]) return null;
      if (found) all = caught(all.span + found.span, all.texts.concat(found.texts));
    }
    return all;
  }

  function one(tokens, at, part) {
    var list = tokens.words, test = part[0];
    if (test === "end" || test === "open") return (test === "end" ? at === list.length : tokens.typing) ? caught(0) : null;
    if (at === list.length) return null;
    if (test === "known" || test === "phrase" || test === "colour") return knownAt(list, at, test);
    return test === "begun" ? begunAt(tokens, at) : inOne(list[at], part);
  }

  function inOne(word, part) {
    if (part[0] === "joined") return joined(word);
    if (part[0] === "set") return words.sets[part[1]][word] ? caught(1) : null;
    var found = words.like[part[1]].exec(word);
    return found && caught(1, found.slice(1).filter(Boolean));
  }

  function knownAt(list, at, test) {
    for (var span = Math.min(words.longest, list.length - at); span > 0; span--) {
      var text = list.slice(at, at + span).join(" "), word = words.known[text] ? text : text.replace(/[-.]/g, " ");
      if (!words.known[word]) continue;
      if (test === "colour") return isColour(word) ? caught(span, words.known[word].means) : null;
      return span > 1 || test === "known" ? caught(span, [word]) : null;
    }
    return null;
  }

  function isColour(word) { return Boolean(words.known[word]) && words.known[word].kind === "colour"; }

  function joined(word) {
    var dash = word.indexOf("-"), base = word.slice(0, dash), stripe = word.slice(dash + 1), known = words.known;
    return dash > 0 && isColour(base) && isColour(stripe) ? caught(1, [known[base].means[0], known[stripe].means[0]]) : null;
  }

  function begunAt(tokens, at) {
    var list = tokens.words, rest = list.slice(at).join(" "), known = words.known[rest] || words.known[list[list.length - 1]];
    var word = !tokens.typing || at + 1 === list.length || known ? "" : begun(rest);
    return word ? caught(list.length - at, [word]) : null;
  }

  function filled(text, texts) {
    return text.replace(/\{([0-9])\}/g, function (_, number) { return texts[number - 1]; });
  }

  function yearOf(text) {
    return Number(text) + (/^[0-9]{2}$/.test(text) ? (Number(text) < 50 ? 2000 : 1900) : 0);
  }

  function yearsIn(ends) {
    return ends.map(function (end) {
      return end.split(" ").map(yearOf).reduce(function (a, b) { return a + b; });
    }).sort(function (a, b) { return a - b; });
  }

  // ---- items (understanding.py) ------------------------------------------------------------
  function itemsOf(tokens) {
    var items = [], at = 0, fact = 0, found, next;
    while (at < tokens.words.length) {
      found = firstRule(tokens, at);
      if (found.rule.kind === "and") fact++;
      next = itemOf(found.rule, found.caught, tokens.words.slice(at, at + found.caught.span).join(" "), fact);
      if (next) items.push(next);
      at += found.caught.span;
    }
    return items;
  }

  function itemOf(rule, found, said, fact) {
    var kind = rule.kind, value = rule.value.map(function (text) { return filled(text, found.texts); });
    if (kind === "and" || kind === "noise") return null;
    if (kind === "known" || kind === "begun") return knownItem(found.texts[0], fact, kind === "begun" ? said : "");
    return kind === "years" ? item(kind, said, fact, [], yearsIn(value)) : item(kind, said, fact, value);
  }

  // `typed` is what was typed, where it was taken for `said`.
  function item(kind, said, fact, value, years, typed) {
    return { kind: kind, said: said, fact: fact, value: value || [], years: years || null, typed: typed || "" };
  }

  function knownItem(word, fact, typed) {
    var known = words.known[word];
    return item(known.kind, word, fact, known.kind === "colour" ? [known.means[0], ""] : known.means, null, typed);
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

  // Whether a word asks for a plan, which says what is measured first.
  function isPlanned(word) { return Object.keys(words.sets.planned).indexOf(word) >= 0; }

  // Whether a word asks for something by itself.
  function isWord(word) { return Boolean(words.known[word]); }

  window.loombookWords = {
    LONGEST_QUESTION: LONGEST_QUESTION, TYPO_LENGTH: TYPO_LENGTH, load: loadWords, split: split, cut: cut,
    tokensOf: tokensOf, itemsOf: itemsOf, item: item, knownItem: knownItem, questionOf: questionOf, oneSlip: oneSlip,
    begun: begun, isPlanned: isPlanned, isWord: isWord, beginsNoise: beginsNoise, slipped: slipped
  };
})();
