// The finder: one field in the head of every page, answers as one types. The home page has a path of
// choices, recent cars and an address of its own for each question; elsewhere the answers stand
// above the page, and go when the field is empty.
(function () {
  "use strict";
  var RECENT = "loombook:finder:recent", MOST_RECENT = 5, FEW_ROWS = 4;
  var HASH_MS = 250; // without a key, until the address says what is asked: browsers slow down who writes it at each
  var SLICE_MS = 8; // how long layouts are read in one go, between keys
  var STEP_WORDS = { make: "Make", model: "Model", year: "Year", variant: "Variant" };
  var finder = window.loombookFinder, book = window.loombookBook, paths = window.loombookPath, cards = window.loombookCards;
  var pages = window.loombookPages;
  var field, root, home, places = {}, path = {}, failed = {}, fetching = {}, toWrite = 0;
  // Answers given so far belong to one text and one path, and are forgotten when those change.
  var asked = { of: "", gone: {}, unknown: [], said: [] };

  // ---- recent cars --------------------------------------------------------------------------
  function recent() {
    var kept;
    try {
      kept = JSON.parse(localStorage.getItem(RECENT) || "[]");
    } catch (refused) {
      kept = [];
    }
    return Array.isArray(kept) ? kept.filter(function (id) { return typeof id === "string"; }).slice(0, MOST_RECENT) : [];
  }

  function opened(id) {
    var kept = [id].concat(recent().filter(function (other) { return other !== id; })).slice(0, MOST_RECENT);
    try {
      localStorage.setItem(RECENT, JSON.stringify(kept));
    } catch (refused) {
      /* Without storage the finder remembers nothing, and works all the same. */
    }
  }

  function recentEntries() {
    var ids = recent(), found = {};
    if (!ids.length) return [];
    for (var at = 0; at < book.shape().count; at++) {
      var id = finder.idOf(at);
      if (ids.indexOf(id) >= 0) found[id] = book.entry(at);
    }
    return ids.filter(function (one) { return found[one]; }).map(function (one) { return found[one]; });
  }

  function showRecent(text) {
    var entries = !home || text || path.make ? [] : recentEntries(), list = cards.element("ul", "links");
    places.recent.textContent = "";
    if (!entries.length) return;
    places.recent.appendChild(cards.element("h2", "finder-step", "Recent cars"));
    entries.forEach(function (entry) {
      list.appendChild(cards.linkTo(cards.element("li"), entry, opened));
    });
    places.recent.appendChild(list);
  }

  // ---- the path of choices ---------------------------------------------------------------------
  function go(chosen) {
    path = paths.onward(chosen);
    if (path.id) opened(path.id);
    writeHash(true);
    show();
    focusFirst(places.path.querySelector(".finder-choice") || places.answers.querySelector("a, button"));
  }

  function showPath(text) {
    var step, row = cards.element("p", "finder-crumbs"), grid = cards.element("div", "finder-grid");
    places.path.textContent = "";
    if (!home || (text && !path.make)) return;
    if (path.make) {
      row.appendChild(cards.press("All makes", function () { go({}); }, "finder-crumb"));
      paths.crumbs(path).forEach(function (crumb) {
        row.appendChild(document.createTextNode(" › "));
        row.appendChild(cards.press(crumb.words, function () { go(crumb.path); }, "finder-crumb"));
      });
      places.path.appendChild(row);
    }
    step = paths.next(path);
    if (!step) return;
    places.path.appendChild(cards.element("h2", "finder-step", path.make ? STEP_WORDS[step.step] : "Choose your car: make"));
    step.choices.forEach(function (choice) {
      var button = cards.press(choice.words + " ", function () { go(choice.path); }, "finder-choice");
      button.appendChild(cards.element("small", "", choice.remark));
      grid.appendChild(button);
    });
    places.path.appendChild(grid);
  }

  // ---- answers -----------------------------------------------------------------------------------
  function remember(text) {
    var of = JSON.stringify([text, path]);
    if (asked.of !== of) asked = { of: of, gone: {}, unknown: [], said: [] };
  }

  function found(text) {
    var limits = paths.limitsOf(path), all = [];
    limits.gone = asked.gone;
    if (text) return inOrOut(text, limits);
    if (path.model) {
      all = paths.carsOf(path).filter(function (at) { return !asked.gone[at]; });
    }
    return { plan: null, found: all, need: [] };
  }

  // Within the chosen cars; when none of them answers, in the whole book, which is then said.
  function inOrOut(text, limits) {
    var inside = finder.search(text, limits), outside;
    if (!path.make || inside.found.length || inside.need.length) return inside;
    limits = finder.allCars();
    limits.gone = asked.gone;
    outside = finder.search(text, limits);
    outside.outside = true;
    return outside;
  }

  function missingParts(result) {
    var need = result.need.slice();
    result.found.slice(0, finder.MOST_VEHICLES).forEach(function (at) {
      var number = book.partOf(at);
      if (!book.part(number) && need.indexOf(number) < 0) need.push(number);
    });
    return need;
  }

  // Answers are shown again when the last part on its way is here, not at each of them.
  function fetchParts(need) {
    need.filter(function (number) { return !failed[number] && !fetching[number]; }).forEach(function (number) {
      fetching[number] = true;
      book.fetchPart(number, function (came) {
        delete fetching[number];
        if (!came) failed[number] = true;
        if (!Object.keys(fetching).length) show();
      });
    });
  }

  function answerQuestion(which) {
    return function (ask, choice) {
      if (!ask) asked.of = null;
      else if (choice) which.places.forEach(function (at, i) {
        if (choice.leaves.indexOf(finder.idOf(at)) < 0) asked.gone[at] = true;
      });
      else asked.unknown.push(ask.question);
      if (ask) asked.said.push(ask.question + " " + (choice ? choice.words : "not known"));
      show();
      focusFirst(places.answers.querySelector(".finder-ask button") || places.answers.querySelector(".finder-car a"));
    };
  }

  function show() {
    var text = field.value.trim();
    root.hidden = !home && !text;
    document.body.classList.toggle("lb-asking", Boolean(text));
    remember(text);
    showRecent(text);
    showPath(text);
    showAnswers(text);
  }

  function showAnswers(text) {
    var result = found(text), need = missingParts(result), shown;
    fetchParts(need);
    if (need.length) cards.put(places.answers, []);
    if (need.some(function (number) { return !failed[number]; })) return say("Fetching this part of the book …");
    if (need.length) return say("A part of the book could not be fetched: the car's own page has its pins.");
    shown = result.found.slice(0, finder.MOST_VEHICLES).map(function (at) { return finder.answerAt(result.plan, at, result.parts); });
    showPages(text, result, shown, whichPieces(result, shown).concat(shown.map(function (answer) {
      return cardPiece(answer, rowsShown(result, shown.length), shown.length === 1 && Boolean(text));
    })));
  }

  // The question between the cars found, and each car's card, with what makes them other than before.
  function whichPieces(result, shown) {
    var which = shown.length ? finder.whichCar(result.found, asked.unknown) : null;
    var box = cards.questions(which, asked, answerQuestion(which));
    return box ? [["which " + JSON.stringify([which, asked.said, asked.unknown]), function () { return box; }]] : [];
  }

  function cardPiece(answer, most, alone) {
    var says = JSON.stringify([answer.entry.id, answer.rows, answer.notes, Math.min(most, answer.rows.length), alone]);
    return ["car " + says, function () { return cards.card(answer, most, opened, alone); }];
  }

  // Plans of a converter that was named come first of all. Pages stand beside the cars; before them
  // when a page's whole name was said, alone when no car fits.
  function showPages(text, result, shown, pieces) {
    var named = text ? pagesOf(text, result, shown) : [], first = !shown.length || (named.length && named[0].whole);
    var words = forgiven(result) + (result.outside && shown.length ? "Not among the cars chosen, but in the book: " : "") + summary(text, result, shown);
    var list = named.length ? [["pages " + JSON.stringify(named), function () { return cards.pageList(named); }]] : [];
    cards.put(places.answers, first ? list.concat(pieces) : pieces.concat(list));
    if (!list.length || shown.length) return say(words);
    say((named.length === 1 ? "1 page fits." : named.length + " pages fit.") + (result.parts.length && result.missed ? " " + result.missed : ""));
  }

  function pagesOf(text, result, shown) {
    var titled = shown.map(function (answer) { return Object.assign({ title: cards.title(answer.entry) }, answer); });
    var by = pages.withParts(titled, result.parts || [], result.planned || []), found = by.plans.concat(by.parts, pages.find(text));
    return found.filter(function (page, at) {
      return found.findIndex(function (one) { return one.url === page.url; }) === at;
    });
  }

  // All rows of one car or of a wire that was asked for; a few of a few cars; names alone of many.
  function rowsShown(result, cars) {
    if (cars === 1 || (result.plan && result.plan.question.facts.length)) return Infinity;
    return result.found.length > cars ? 0 : FEW_ROWS;
  }

  function say(words) { if (places.status.textContent !== words) places.status.textContent = words; }

  function forgiven(result) {
    var said = window.loombookSaid.saidOf(result.read || []);
    return said && said + " ";
  }

  function summary(text, result, shown) {
    var many = result.found.length;
    if (!text && !path.model) return "";
    if (result.unread) return result.unread;
    if (!many) {
      return Object.keys(asked.gone).length ? "No record of this book is that car." : "Nothing in this book fits. " + (result.missed || "");
    }
    if (many > shown.length) return many + " cars fit, " + shown.length + " are shown: add a make, a model or a year.";
    return many === 1 ? "1 car fits." : many + " cars fit.";
  }

  // ---- keyboard and address ------------------------------------------------------------------------
  function focusFirst(node) { if (node) node.focus(); }

  function stops() {
    return Array.prototype.filter.call(document.querySelectorAll("#finder-field, #finder button, #finder a"), function (node) {
      return node.offsetParent !== null;
    });
  }

  function move(by) {
    var all = stops(), at = all.indexOf(document.activeElement);
    if (at >= 0) focusFirst(all[Math.max(0, Math.min(all.length - 1, at + by))]);
  }

  function clear() {
    if (field.value) field.value = "";
    else {
      var steps = paths.crumbs(path);
      path = steps.length > 1 ? steps[steps.length - 2].path : {};
    }
    writeHash(false);
    show();
    field.focus();
  }

  function onKey(event) {
    var inField = event.target === field, keys = { ArrowDown: 1, ArrowUp: -1 };
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (!inField) keys = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };
    if (keys[event.key]) move(keys[event.key]);
    else if (event.key === "Escape") clear();
    else if (event.key === "Enter" && inField) focusFirst(places.answers.querySelector("button, a") || places.path.querySelector("button"));
    else return;
    event.preventDefault();
  }

  function writeHash(step) {
    if (!home) return;
    var hash = paths.toHash(path, field.value.trim()), address = hash ? "#" + hash : location.pathname + location.search;
    if (hash === location.hash.replace(/^#/, "")) return;
    try {
      history[step ? "pushState" : "replaceState"](null, "", address);
    } catch (refused) {
      /* Some browsers keep the address of a file as it is. */
    }
  }

  function readHash() {
    if (!home) return;
    var said = paths.fromHash(location.hash);
    if (location.hash && !/[#&](?:car|ask)=/.test(location.hash)) return;
    path = said.path;
    field.value = said.text;
    show();
  }

  // The first letter asks of every layout at once: each is read before, a little at a time, so that
  // nobody waits for all of them with a key pressed.
  function prepare(number) {
    var until = performance.now() + SLICE_MS;
    while (number < book.data().layouts.length && performance.now() < until) book.layout(number++);
    if (number < book.data().layouts.length) setTimeout(prepare, 0, number);
  }

  function start() {
    var list = document.getElementById("makes"), typed;
    root = document.getElementById("finder");
    field = document.getElementById("finder-field");
    if (!root || !field || !window.loombookFinderData) return;
    home = Boolean(list);
    ["recent", "path", "answers", "status"].forEach(function (name) { places[name] = document.getElementById("finder-" + name); });
    finder.load(window.loombookFinderData);
    if (list) list.hidden = true;
    if (window.loombookFinderData.parts.length === 1) fetchParts([0]);
    field.addEventListener("input", function () {
      show();
      clearTimeout(toWrite);
      toWrite = setTimeout(writeHash, HASH_MS, false);
    });
    addEventListener("pagehide", function () { writeHash(false); });
    [field, root].forEach(function (node) { node.addEventListener("keydown", onKey); });
    addEventListener("popstate", readHash);
    addEventListener("hashchange", readHash);
    typed = field.value;
    readHash();
    if (typed && !field.value) field.value = typed;
    show();
    setTimeout(prepare, 0, 0);
  }

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
