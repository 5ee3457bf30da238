// The book as the finder knows it: columns of the index (builder/finder/tables.py), and parts with
// wires, grades and tell-apart questions that are fetched when a car of theirs is shown.
(function () {
  "use strict";
  var SAME = 4, BEGUN = 3, SLIP = 2, YEAR = /^(?:19|20)[0-9]{2}$/;
  var words = window.loombookWords, data = null, book = null, parts = [], waiting = {}, fits = {}, fitCount = 0;

  function load(index, loadedParts) {
    data = index;
    words.load(index);
    parts = (loadedParts || []).slice();
    ["from", "years", "variant", "id", "layout"].forEach(function (name) { index.columns[name] = Int32Array.from(index.columns[name]); });
    book = { count: index.columns.from.length, groups: [], groupOf: [], vocabulary: [], numbers: Object.create(null), layouts: [], entries: [] };
    index.makes.forEach(function (make) {
      for (var i = 0; i < make[1].length; i += 2) addGroup(make[0], make[1][i], make[1][i + 1]);
    });
    book.groupWords = book.groups.map(function (group) { return wordsOf(group.make + " " + group.model); });
    book.variantWords = index.variants.map(wordsOf);
    book.idWords = index.ids.map(function (pattern) { return wordsOf(pattern.replace(/-/g, " ").replace(/@|#[0-9]/g, " ")); });
    book.isPrivate = Object.create(null);
    (index.private || []).forEach(function (at) { book.isPrivate[at] = true; });
    fits = Object.create(null);
    fitCount = 0;
  }

  function addGroup(make, model, count) {
    var group = { at: book.groups.length, make: make, model: model, first: book.groupOf.length, count: count,
      lower: [make.toLowerCase(), model.toLowerCase()] };
    book.groups.push(group);
    for (var i = 0; i < count; i++) book.groupOf.push(group.at);
  }

  // The words of a name by number; "four-door" is that, "four" and "door" (names.py).
  function wordsOf(text) {
    var found = [];
    words.split(text.toLowerCase().replace(/\//g, " ")).forEach(function (word) {
      [word].concat(word.split("-")).forEach(function (part) {
        if (!part || YEAR.test(part)) return;
        if (book.numbers[part] === undefined) {
          book.numbers[part] = book.vocabulary.length;
          book.vocabulary.push(part);
        }
        if (found.indexOf(book.numbers[part]) < 0) found.push(book.numbers[part]);
      });
    });
    return found;
  }

  // Whether a word stands so in the name of a car of the book.
  function isKnown(word) { return book.numbers[word] !== undefined; }

  // How well a word fits each model, variant and id: the same, its beginning, one slip. A word that
  // names a car of the book as it stands means that one: it is no beginning of another and no slip.
  function fitsOf(word, forgiving) {
    var key = (forgiving ? "1" : "0") + word;
    if (!fits[key]) {
      if (++fitCount > 200) {
        fits = Object.create(null);
        fitCount = 1;
      }
      fits[key] = makeFits(word, forgiving && word.length >= words.TYPO_LENGTH);
    }
    return fits[key];
  }

  function makeFits(word, forgiving) {
    var known = isKnown(word), any = false, byWord = book.vocabulary.map(function (own) {
      var fit = own === word ? SAME : known ? 0 : own.lastIndexOf(word, 0) === 0 ? BEGUN :
        forgiving && words.oneSlip(word, own) ? SLIP : 0;
      any = any || fit > 0;
      return fit;
    });
    function best(list) {
      for (var i = 0, most = 0; i < list.length; i++) most = Math.max(most, byWord[list[i]]);
      return most;
    }
    var fitting = { any: any, byWord: byWord, group: null, variant: null, id: null, beside: false };
    if (!any) return fitting;
    fitting.group = Uint8Array.from(book.groupWords, best);
    fitting.variant = Uint8Array.from(book.variantWords, best);
    fitting.id = Uint8Array.from(book.idWords, best);
    fitting.beside = fitting.variant.some(Boolean) || fitting.id.some(Boolean); // a word beside make and model
    return fitting;
  }

  function fit(found, at) {
    if (!found.any) return 0;
    return Math.max(found.group[book.groupOf[at]], found.variant[data.columns.variant[at]], found.id[data.columns.id[at]]);
  }

  // The word of a car's name that a word fits best.
  function ownWord(found, at) {
    var lists = [book.groupWords[book.groupOf[at]], book.variantWords[data.columns.variant[at]], book.idWords[data.columns.id[at]]];
    var most = fit(found, at), own = "";
    lists.forEach(function (list) {
      list.forEach(function (number) { if (!own && most && found.byWord[number] === most) own = book.vocabulary[number]; });
    });
    return own;
  }

  // Whether a word fits the name of a make.
  function fitsMake(found, make) {
    return wordsOf(make).some(function (number) { return found.byWord[number] > 0; });
  }

  // The makes whose whole name is among the words asked, or null: then no other make answers.
  function makesNamed(asked) {
    var named = data.makes.map(function (row) { return row[0]; }).filter(function (make) {
      return words.split(make.toLowerCase().replace(/\//g, " ")).every(function (word) { return !word || asked.indexOf(word) >= 0; });
    });
    return named.length ? named : null;
  }

  function makeOf(at) { return book.groups[book.groupOf[at]].make; }

  // A car of the book, put together once.
  function entry(at) { return book.entries[at] || (book.entries[at] = entryOf(at)); }

  function entryOf(at) {
    var group = book.groups[book.groupOf[at]], from = data.columns.from[at], to = from + data.columns.years[at];
    var slug = (group.make + " " + group.model).toLowerCase().replace(/ /g, "-");
    return {
      at: at, make: group.make, model: group.model, variant: data.variants[data.columns.variant[at]],
      isPrivate: !!book.isPrivate[at], yearFrom: from, yearTo: to, years: from === to ? String(from) : from + "–" + to,
      id: data.ids[data.columns.id[at]].replace("@", slug).replace(/#([0-9])/, function (all, later) {
        return String(from + Number(later));
      })
    };
  }

  // The pins of a layout, as every car that has it shares them.
  function layout(number) {
    if (!book.layouts[number]) {
      var packed = data.layouts[number], rows = [], text = data.texts;
      for (var i = 1; i < packed.length; i += 2) {
        var block = data.blocks[packed[i + 1]], plug = text[packed[i]];
        for (var j = 0; j < block.length; j += 4) {
          rows.push({
            fn: text[block[j]], channel: text[block[j + 1]], plug: plug, plugLower: plug.toLowerCase(),
            cavity: text[block[j + 2]], warning: text[block[j + 3]],
            cavities: text[block[j + 2]].split(" / ").map(function (leg) { return leg.split(" ")[0]; })
          });
        }
      }
      book.layouts[number] = { noSwitched: text[packed[0]], rows: rows };
    }
    return book.layouts[number];
  }

  function partOf(at) {
    var low = 0, high = data.parts.length;
    while (high - low > 1) {
      var middle = (low + high) >> 1;
      if (data.parts[middle] <= at) low = middle;
      else high = middle;
    }
    return low;
  }

  // The wires and grades of a car, one for each row of its layout, and the converters it has a plan
  // with; null until its part is here.
  function wires(at) {
    var number = partOf(at), part = parts[number], place = at - data.parts[number];
    if (!part) return null;
    return {
      set: part.wireSets[part.wires[place]], texts: part.texts, grades: part.gradeSets[part.grades[place]],
      plans: part.planSets[part.plans[place]]
    };
  }

  // Fetch a part with a script element: that works from a folder of files as well. `then` is told
  // whether it came; a part that is here or on its way is not fetched again.
  function fetchPart(number, then) {
    if (parts[number] || waiting[number]) return;
    waiting[number] = then;
    var script = document.createElement("script");
    script.src = (window.loombookRoot || "") + "assets/finder-part-" + number + ".js";
    script.onerror = function () {
      delete waiting[number];
      then(false);
    };
    document.head.appendChild(script);
  }

  // The housing of a plug of a car, by its id; "" for one that is not drawn.
  function shellOf(at, plug) {
    var part = parts[partOf(at)], set = part && part.shellSets ? part.shellSets[part.shells[at - data.parts[partOf(at)]]] : [];
    for (var i = 0; i < set.length; i += 2) if (set[i] === plug) return set[i + 1];
    return "";
  }

  var shells = {}, waitingShells = {};

  // The drawing of a housing, fetched like a part; `then` is given it, or null.
  function fetchShell(id, then) {
    if (!id || shells[id]) return then(shells[id] || null);
    (waitingShells[id] = waitingShells[id] || []).push(then);
    if (waitingShells[id].length > 1) return;
    var script = document.createElement("script");
    script.src = (window.loombookRoot || "") + "assets/shell-" + id + ".js";
    script.onerror = function () { came(id, null); };
    document.head.appendChild(script);
  }

  function came(id, shell) {
    var told = waitingShells[id] || [];
    shells[id] = shell;
    delete waitingShells[id];
    told.forEach(function (then) { then(shell); });
  }

  window.loombookShell = function (shell) { came(shell.id, shell); };

  window.loombookFinderPart = function (number, part) {
    parts[number] = part;
    var then = waiting[number];
    delete waiting[number];
    if (then) then(true);
  };

  window.loombookBook = {
    load: load, data: function () { return data; }, shape: function () { return book; }, fitsOf: fitsOf, fit: fit, SLIP: SLIP,
    isKnown: isKnown, ownWord: ownWord, fitsMake: fitsMake, makesNamed: makesNamed, makeOf: makeOf,
    entry: entry, layout: layout, partOf: partOf, wires: wires, fetchPart: fetchPart, shellOf: shellOf, fetchShell: fetchShell,
    part: function (number) { return parts[number]; }
  };
})();
