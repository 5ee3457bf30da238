// Pages found by the words of their titles and names: parts, jobs, rules, the handbook. What takes
// parts out of a question is written as in builder/finder/parts.py; a test asks both the same.
(function () {
  "use strict";
  var MOST_PAGES = 6, LONGEST_NAME = 6, SHORTEST_NAME = 4, BEGINNING = 3;
  var PARTS = { converter: 1, amplifier: 1, loom: 1, interface: 1, cable: 1, housing: 1 };
  var words = window.loombookWords, book = window.loombookBook;
  var table = window.loombookFindPages || [[], []], kinds = {}, rows;
  table[0].forEach(function (pair) { kinds[pair[0]] = pair[1]; });

  // What a person may say of a page: its title, its name without the ending, what it is.
  function load() {
    rows = table[1].map(function (row) {
      var name = row[2].split("/").pop().replace(/\.html$/, ""), kind = kinds[row[0]];
      return { kind: kind, title: row[1], url: row[2], id: name, name: plain(name), called: row[1].replace(" (" + kind + ")", ""), said: said(row[1] + " " + name + " " + row[3] + " " + kinds[row[0]]) };
    });
  }

  function plain(text) { return text.toLowerCase().replace(/[^a-z0-9\u00c0-\uffff]+/g, ""); }

  function said(text) {
    var list = text.toLowerCase().split(/[^a-z0-9\u00c0-\uffff-]+/);
    return list.concat(list.map(plain));
  }

  // Every word begins one of the page's; a page named whole comes first.
  function find(text) {
    var asked = text.toLowerCase().split(/[^a-z0-9\u00c0-\uffff-]+/).filter(Boolean), whole = plain(text);
    if (!rows) load();
    if (!asked.length || whole.length < 2) return [];
    return rows.map(function (row, at) {
      var exact = 0, ok = asked.every(function (word) {
        var fit = row.said.indexOf(word) >= 0 || row.said.indexOf(plain(word)) >= 0;
        if (fit) exact++;
        return fit || row.said.some(function (own) { return own.lastIndexOf(word, 0) === 0; });
      });
      return ok ? { row: row, key: [row.name === whole ? 0 : 1, -exact, at] } : null;
    }).filter(Boolean).sort(function (a, b) {
      return a.key[0] - b.key[0] || a.key[1] - b.key[1] || a.key[2] - b.key[2];
    }).slice(0, MOST_PAGES).map(function (one) {
      return { kind: one.row.kind, title: one.row.title, url: one.row.url, whole: one.key[0] === 0 };
    });
  }

  // ---- parts that a question names (parts.py) --------------------------------------------------
  function parts() {
    if (!rows) load();
    return rows.filter(function (row) { return PARTS[row.kind]; });
  }

  // The parts that a question names, the question without them, and what was forgiven.
  function partsSaid(text) {
    var all = parts(), list = words.split(text.toLowerCase()).filter(Boolean), found = [], left = [], at = 0, begins;
    while (at < list.length) {
      var named = namedAt(list, at, all);
      found = found.concat(named.parts);
      if (!named.parts.length) left.push(list[at]);
      at += named.span;
    }
    if (!found.length && words.split(text).pop() && left.length) {
      begins = begun(left[left.length - 1], all);
      if (begins.length) return {
        parts: begins, rest: left.slice(0, -1).concat("").join(" "),
        read: [{ said: left[left.length - 1], words: begins.map(function (part) { return part.id; }) }]
      };
    }
    found = found.filter(function (part, i) { return found.indexOf(part) === i; });
    return { parts: found, rest: found.length ? left.concat("").join(" ") : text, read: [] };
  }

  // The converters whose plans a question asks for.
  function plansAsked(text, named) {
    var of = named.filter(function (part) { return part.kind === "converter"; });
    var asks = words.split(text.toLowerCase()).some(words.isPlanned);
    return of.length || !asks ? of : parts().filter(function (part) { return part.kind === "converter"; });
  }

  function namedAt(list, at, all) {
    for (var span = Math.min(LONGEST_NAME, list.length - at); span > 0; span--) {
      var name = plain(list.slice(at, at + span).join("")), known = span === 1 && (words.isWord(list[at]) || book.isKnown(list[at]));
      var named = name.length < SHORTEST_NAME || known ? [] : all.filter(function (part) {
        return part.name === name || plain(part.called) === name;
      });
      if (named.length) return { span: span, parts: named };
    }
    return { span: 1, parts: [] };
  }

  function begun(word, all) {
    var name = plain(word);
    if (name.length < BEGINNING || words.begun(word) || book.fitsOf(word, false).any) return [];
    return all.filter(function (part) { return part.kind === "converter" && part.name.lastIndexOf(name, 0) === 0; });
  }

  // The plans that are asked for of the cars shown, then the parts that were named, as pages.
  function withParts(shown, named, planned) {
    var plans = [], own = named.map(asPage);
    shown.forEach(function (answer) {
      planned.forEach(function (part) {
        if (answer.plans.indexOf(part.id) >= 0) plans.push({
          kind: "plan", title: answer.title + " with " + part.called, url: "plans/" + answer.entry.id + "--" + part.id + ".html", whole: true
        });
      });
    });
    return { plans: plans, parts: own };
  }

  function asPage(row) { return { kind: row.kind, title: row.title, url: row.url, whole: true }; }

  window.loombookPages = { find: find, partsSaid: partsSaid, plansAsked: plansAsked, withParts: withParts };
})();
