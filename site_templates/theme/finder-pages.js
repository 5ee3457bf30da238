// Pages found by the words of their titles and names: parts, jobs, rules, the handbook.
(function () {
  "use strict";
  var MOST_PAGES = 6, words = window.loombookWords;
  var table = window.loombookFindPages || [[], []], kinds = {}, rows;
  table[0].forEach(function (pair) { kinds[pair[0]] = pair[1]; });

  // What a person may say of a page: its title, its name without the ending, what it is.
  function load() {
    rows = table[1].map(function (row) {
      var name = row[2].split("/").pop().replace(/\.html$/, "");
      return { kind: kinds[row[0]], title: row[1], url: row[2], name: plain(name), said: said(row[1] + " " + name + " " + row[3] + " " + kinds[row[0]]) };
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

  window.loombookPages = { find: find };
})();
