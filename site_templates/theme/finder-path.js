// Make, model, year, variant: one step after another, each with what is left to choose from.
// A path is {make, model, year, id}; the later parts may be missing.
(function () {
  "use strict";
  var MOST_SHOWN = 60;
  var book = window.loombookBook;

  function groupsOf(path) {
    var make = (path.make || "").toLowerCase(), model = (path.model || "").toLowerCase();
    return book.shape().groups.filter(function (group) {
      return (!make || group.lower[0] === make) && (!model || group.lower[1] === model);
    });
  }

  // The cars of a path as places in the book, its year minded.
  function carsOf(path) {
    var columns = book.data().columns, found = [];
    groupsOf(path).forEach(function (group) {
      for (var at = group.first; at < group.first + group.count; at++) {
        var from = columns.from[at], to = from + columns.years[at];
        if (!path.year || (from <= path.year && path.year <= to)) found.push(at);
      }
    });
    return path.id ? found.filter(function (at) { return book.entry(at).id === path.id; }) : found;
  }

  // Which cars a search may look at: those of one make, model, year, record.
  function limitsOf(path) {
    if (!path.make) return { first: 0, end: book.shape().count };
    var cars = carsOf(path), groups = groupsOf(path), last = groups[groups.length - 1];
    if (path.id || !groups.length) return { first: cars[0] || 0, end: cars.length ? cars[0] + 1 : 0 };
    return { first: groups[0].first, end: last.first + last.count, year: path.year };
  }

  function plus(path, name, value) {
    var longer = { make: path.make, model: path.model, year: path.year, id: path.id, letter: "" };
    longer[name] = value;
    return longer;
  }

  function counted(number, word) { return number + " " + word + (number === 1 ? "" : "s"); }

  function names(path, step, list, remark) {
    var unique = list.filter(function (name, i) { return list.indexOf(name) === i; });
    if (path.letter) unique = unique.filter(function (name) { return letterOf(name) === path.letter; });
    else if (unique.length > MOST_SHOWN) return letters(path, step, unique);
    return { step: step, choices: unique.map(function (name) {
      return { words: name, remark: remark(name), path: plus(path, step, name) };
    }) };
  }

  function letterOf(name) { return name.charAt(0).toUpperCase(); }

  function letters(path, step, list) {
    var found = list.map(letterOf).filter(function (letter, i, all) { return all.indexOf(letter) === i; });
    return { step: step, choices: found.map(function (letter) {
      var many = list.filter(function (name) { return letterOf(name) === letter; }).length;
      return { words: letter + " …", remark: String(many), path: plus(path, "letter", letter) };
    }) };
  }

  // What can be chosen next: {step, choices: [{words, remark, path}]}, or null at the end.
  function next(path) {
    var groups = groupsOf(path);
    if (path.id) return null;
    if (!path.make) {
      return names(path, "make", groups.map(function (group) { return group.make; }), function (make) {
        return counted(groupsOf({ make: make }).length, "model");
      });
    }
    if (!path.model) {
      return names(path, "model", groups.map(function (group) { return group.model; }), function (model) {
        return counted(carsOf({ make: path.make, model: model }).length, "record");
      });
    }
    return years(path) || variants(path);
  }

  function years(path) {
    var cars = carsOf(path), entries = cars.map(book.entry);
    var all = entries.map(function (entry) { return entry.years; });
    if (path.year || all.every(function (one) { return one === all[0]; })) return null;
    var first = Math.min.apply(null, entries.map(function (e) { return e.yearFrom; })), choices = [];
    var last = Math.max.apply(null, entries.map(function (e) { return e.yearTo; }));
    for (var year = first; year <= last; year++) {
      var many = carsOf(plus(path, "year", year)).length;
      if (many) choices.push({ words: String(year), remark: counted(many, "record"), path: plus(path, "year", year) });
    }
    return { step: "year", choices: choices };
  }

  function variants(path) {
    var entries = carsOf(path).map(book.entry);
    return { step: "variant", choices: entries.map(function (entry) {
      return { words: entry.variant, remark: entry.years, path: plus(path, "id", entry.id) };
    }) };
  }

  // Take every step that leaves no choice; the make is always the reader's.
  function onward(path) {
    var step = path.make ? next(path) : null;
    while (step && step.choices.length === 1) {
      path = step.choices[0].path;
      step = next(path);
    }
    return path;
  }

  // ---- the path as crumbs and in the address ---------------------------------------------------
  function crumbs(path) {
    var found = [], shorter = { make: path.make };
    if (path.make) found.push({ words: path.make, path: shorter });
    if (path.model) found.push({ words: path.model, path: (shorter = plus(shorter, "model", path.model)) });
    if (path.year) found.push({ words: String(path.year), path: (shorter = plus(shorter, "year", path.year)) });
    if (path.id && carsOf(path).length) found.push({ words: book.entry(carsOf(path)[0]).variant, path: path });
    return found;
  }

  function toHash(path, text) {
    var parts = [path.make, path.model, path.year || (path.id ? "-" : ""), path.id], said = [];
    var car = parts.map(function (part) { return part ? encodeURIComponent(String(part).toLowerCase()) : ""; }).join("/").replace(/\/+$/, "");
    if (car) said.push("car=" + car);
    if (text) said.push("ask=" + encodeURIComponent(text));
    return said.join("&");
  }

  function decoded(part) {
    try {
      return decodeURIComponent(part);
    } catch (spoilt) {
      return "";
    }
  }

  // {path, text} of an address; what the book does not hold is left out.
  function fromHash(hash) {
    var found = { path: {}, text: "" };
    hash.replace(/^#/, "").split("&").forEach(function (pair) {
      var name = pair.slice(0, pair.indexOf("=")), value = pair.slice(pair.indexOf("=") + 1);
      if (name === "ask") found.text = decoded(value);
      if (name === "car") found.path = known(value.split("/").map(decoded));
    });
    return found;
  }

  function known(parts) {
    var path = {}, groups;
    if (parts[0] && (groups = groupsOf({ make: parts[0] })).length) path.make = groups[0].make;
    if (path.make && parts[1] && (groups = groupsOf({ make: path.make, model: parts[1] })).length) path.model = groups[0].model;
    if (path.model && /^[0-9]{4}$/.test(parts[2] || "") && carsOf(plus(path, "year", Number(parts[2]))).length) path.year = Number(parts[2]);
    if (path.model && parts[3] && carsOf(plus(path, "id", parts[3])).length) path.id = parts[3];
    return path;
  }

  window.loombookPath = { next: next, onward: onward, crumbs: crumbs, limitsOf: limitsOf, carsOf: carsOf, toHash: toHash, fromHash: fromHash };
})();
