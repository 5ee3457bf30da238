// What was forgiven to read a question, and why nothing answers it. The steps are those of
// builder/finder/forgiven.py and misses.py; a test asks both the same questions.
(function () {
  "use strict";
  var NOTHING_ASKED = "These words ask for nothing: say a car, or what you look for.";
  var MOST_MAKES = 3, LAST_YEAR = 9999;
  var TOO_LONG = "only the first " + window.loombookWords.LONGEST_QUESTION + " characters of a question are read";
  var book = window.loombookBook;

  // ---- what was forgiven (forgiven.py) ---------------------------------------------------
  function readItems(items) {
    return items.filter(function (one) { return one.typed; }).map(function (one) {
      return { said: one.typed, words: [one.kind === "cavity" ? "cavity " + one.said : one.said] };
    });
  }

  // The names that were read as others in the cars shown, which are places in the book.
  function readNames(question, shown, forgiving) {
    var found = [];
    question.names.forEach(function (name) {
      var fits = book.fitsOf(name, forgiving);
      var own = unique(shown.map(function (at) { return book.ownWord(fits, at); })).filter(function (word) { return word !== name; });
      if (own.length) found.push({ said: name, words: own });
    });
    return found;
  }

  // ---- old ids (old_ids.py) ------------------------------------------------------------------
  // A question with each old id made the new one, and what was read so.
  function withNewIds(text, renamed) {
    var read = [], seen = Object.create(null), has = Object.prototype.hasOwnProperty;
    var asked = text.replace(/[A-Za-z0-9]+(?:-[A-Za-z0-9]+)+/g, function (typed) {
      var word = typed.toLowerCase();
      if (!has.call(renamed, word)) return typed;
      if (!seen[word]) read.push({ said: word, words: [renamed[word]] });
      seen[word] = true;
      return renamed[word];
    });
    return { text: asked, read: read };
  }

  function saidOf(read) { return read.length ? read.map(said).join("; ") + "." : ""; }

  function said(one) {
    return '"' + one.said + '" ' + (one.words.length ? "read as " + listed(one.words) : "left out" + (one.why ? ": " + one.why : ""));
  }

  function listed(words) {
    var quoted = words.map(function (word) { return '"' + word + '"'; }), last = quoted.pop();
    return quoted.length ? quoted.join(", ") + " or " + last : last;
  }

  function unique(list) { return list.filter(function (one, i) { return list.indexOf(one) === i; }); }

  // ---- why nothing answers (misses.py) ---------------------------------------------------
  function missed(question) {
    if (!question.names.length && !question.years && !question.facts.length) return NOTHING_ASKED;
    var alike = question.names.filter(isAlike);
    if (alike.length) return askedBack(alike);
    var asked = question.names.map(function (name) { return { name: name, fits: book.fitsOf(name, true) }; });
    var nobody = asked.filter(function (one) { return !one.fits.any; });
    if (nobody.length) return "No make, model, variant or part of this book is called " + listed(nobody.map(nameOf)) + ".";
    var named = book.makesNamed(question.names), together = places(function (at) {
      return (!named || named.indexOf(book.makeOf(at)) >= 0) && asked.every(function (one) { return book.fit(one.fits, at); });
    });
    return together.length ? ofYears(question, together) : apart(asked);
  }

  // What a short colour could be, in words; "" for every other word.
  function mayBe(word) {
    var alike = book.data().askedBack;
    return Object.prototype.hasOwnProperty.call(alike, word) ? "could be " + alike[word].join(" or ") : "";
  }

  function isAlike(name) { return Boolean(mayBe(name)) && !book.isKnown(name); }

  function askedBack(names) {
    return names.map(function (name) { return '"' + name + '" ' + mayBe(name); }).join(", ") + ": write it out.";
  }

  function nameOf(one) { return one.name; }

  function places(test) {
    var found = [];
    for (var at = 0; at < book.shape().count; at++) if (test(at)) found.push(at);
    return found;
  }

  function placesOf(one) { return places(function (at) { return book.fit(one.fits, at) > 0; }); }

  function makesCalled(one) {
    return book.data().makes.map(function (row) { return row[0]; }).filter(function (make) { return book.fitsMake(one.fits, make); });
  }

  // Every name is known, but no car has them all.
  function apart(asked) {
    var makes = [], first = asked.filter(function (one) {
      if (!makes.length) makes = makesCalled(one);
      return makes.length;
    })[0];
    if (!first) return "No car of this book is called " + atOnce(asked) + ".";
    var others = asked.filter(function (one) { return one.name !== first.name; });
    var missing = others.filter(function (one) {
      return !placesOf(one).some(function (at) { return makes.indexOf(book.makeOf(at)) >= 0; });
    });
    if (!missing.length) return "No " + makes.join(" or ") + " is called " + atOnce(others) + ".";
    return missing.map(function (one) { return notOf(makes.join(" or "), one); }).join(" ");
  }

  function notOf(makes, one) {
    var others = makesCalled(one), have = unique(placesOf(one).map(book.makeOf));
    if (others.length) return "No " + makes + " is a " + others.join(" or ") + ".";
    var who = have.length <= MOST_MAKES ? have.join(" and ") : have.length + " other makes";
    return "No " + makes + " is called " + asRead(one) + "; " + who + (have.length === 1 ? " has one." : " have one.");
  }

  function atOnce(asked) { return asked.map(asRead).join(" and ") + " at once"; }

  // A name in quotes, with the word it was read as when that is another.
  function asRead(one) {
    var own = book.ownWord(one.fits, placesOf(one)[0]);
    return '"' + one.name + '"' + (own === one.name ? "" : ' (read as "' + own + '")');
  }

  // Cars of these names are known: their years are others, or they lack what was asked.
  function ofYears(question, together) {
    var years = question.years, columns = book.data().columns, spans = together.map(function (at) {
      return [columns.from[at], columns.from[at] + columns.years[at]];
    });
    if (years && !spans.some(function (one) { return one[0] <= years[1] && years[0] <= one[1]; })) {
      return called(question, together) + " recorded for " + joined(spans).map(span).join(", ") + ", not for " + span(years) + ".";
    }
    var said = question.facts.map(function (fact) { return fact.said; }).join(", ");
    return said + ": not recorded for any car of " + (years ? span(years) : "this book") + ".";
  }

  function called(question, together) {
    if (!question.names.length) return "The cars of this book are";
    var models = unique(together.map(function (at) { return book.entry(at).make + " " + book.entry(at).model; }));
    return models.length === 1 ? models[0] + " is" : "Cars of that name are";
  }

  // The years of cars, those that touch made one.
  function joined(spans) {
    var found = [];
    spans.sort(function (a, b) { return a[0] - b[0] || a[1] - b[1]; }).forEach(function (one) {
      var last = found[found.length - 1];
      if (last && one[0] <= last[1] + 1) last[1] = Math.max(last[1], one[1]);
      else found.push(one.slice());
    });
    return found;
  }

  function span(years) {
    if (years[0] === years[1]) return String(years[0]);
    if (years[1] === LAST_YEAR) return years[0] + " and later";
    return years[0] ? years[0] + " to " + years[1] : years[1] + " and earlier";
  }

  window.loombookSaid = { TOO_LONG: TOO_LONG, withNewIds: withNewIds, mayBe: mayBe, readItems: readItems, readNames: readNames, saidOf: saidOf, missed: missed };
})();
