// The finder of the home page. The steps are those of builder/finder/search.py and asking.py,
// line by line, over the tables in finder-data.js; a test asks both the same questions.
(function () {
  "use strict";
  var MOST_VEHICLES = 8, TYPO_LENGTH = 4, SLIP = 2;
  var SPLIT = /[\s,;:?!()/]+/;
  var YEAR = /^(?:19|20)[0-9]{2}$/, YEARS = /^((?:19|20)[0-9]{2})[-–]((?:19|20)[0-9]{2})$/;
  var data = null, entries = [], groups = [], noise = {}, has = Object.prototype.hasOwnProperty;

  function load(given) {
    data = given;
    noise = {};
    data.noise.forEach(function (word) { noise[word] = true; });
    entries = data.vehicles.map(function (v) {
      var words = (v[1] + " " + v[2] + " " + v[3] + " " + v[0].replace(/-/g, " ")).toLowerCase();
      return {
        id: v[0], make: v[1], model: v[2], variant: v[3], yearFrom: v[4], yearTo: v[5],
        noSwitched: data.texts[v[6]], packed: v[7], rows: null,
        words: words.split(SPLIT).filter(Boolean)
      };
    });
    groups = data.sisters.map(function (g) {
      return { ids: g[0].map(idOf), same: g[2].map(function (pair) { return pair.map(idOf); }), asks: g[1].map(askOf) };
    });
  }

  function idOf(at) { return entries[at].id; }

  function askOf(ask) {
    return { question: data.texts[ask[0]], cost: ask[1], choices: ask[2].map(function (choice) {
      return { words: data.texts[choice[0]], leaves: choice[1].map(idOf) };
    }) };
  }

  function rowsOf(entry) {
    if (!entry.rows) {
      entry.rows = entry.packed.map(function (row) {
        var t = row.map(function (n) { return data.texts[n]; });
        return { fn: t[0], channel: t[1], plug: t[2], cavity: t[3], wire: t[4], grade: t[5], warning: t[6] };
      });
    }
    return entry.rows;
  }

  function known(tokens, at) {
    for (var span = Math.min(data.longestWord, tokens.length - at); span > 0; span--) {
      var word = tokens.slice(at, at + span).map(function (t) { return t.replace(/-/g, " "); }).join(" ");
      if (has.call(data.functionWords, word)) return [span, "function", word];
      if (has.call(data.channelWords, word)) return [span, "channel", word];
      if (has.call(data.colourWords, word)) return [span, "colour", word];
    }
    return [1, "", tokens[at]];
  }

  function yearsOf(token) {
    var span = YEARS.exec(token);
    if (span) return [Number(span[1]), Number(span[2])];
    return YEAR.test(token) ? [Number(token), Number(token)] : null;
  }

  function understand(text) {
    var tokens = text.toLowerCase().split(SPLIT).filter(Boolean), at = 0, years;
    var q = { names: [], years: null, functions: [], channels: [], colours: [] };
    while (at < tokens.length) {
      var k = known(tokens, at);
      if (k[1] === "function") q.functions = q.functions.concat(data.functionWords[k[2]]);
      else if (k[1] === "channel") q.channels = q.channels.concat(data.channelWords[k[2]]);
      else if (k[1] === "colour") q.colours.push(data.colourWords[k[2]]);
      else if ((years = yearsOf(tokens[at]))) q.years = years;
      else if (!has.call(noise, tokens[at])) q.names.push(tokens[at]);
      at += k[0];
    }
    if (q.channels.length && !q.functions.length) q.functions = ["speaker", "line"];
    q.functions = q.functions.filter(function (f, i, all) { return all.indexOf(f) === i; });
    return q;
  }

  function oneSlip(a, b) {
    if (Math.abs(a.length - b.length) > 1) return false;
    var start = 0, shorter = Math.min(a.length, b.length);
    while (start < shorter && a[start] === b[start]) start++;
    var restA = a.slice(start), restB = b.slice(start);
    return restA.slice(1) === restB.slice(1) || restA.slice(1) === restB || restA === restB.slice(1) ||
      (restB.length > 1 && restA.slice(0, 2) === restB[1] + restB[0] && restA.slice(2) === restB.slice(2));
  }

  function fit(name, word) {
    if (name === word) return 4;
    if (word.indexOf(name) === 0) return 3;
    return name.length >= TYPO_LENGTH && oneSlip(name, word) ? SLIP : 0;
  }

  function score(q, entry) {
    if (q.years && !(entry.yearFrom <= q.years[1] && q.years[0] <= entry.yearTo)) return [-1, 0];
    var total = q.years && q.names.length ? 1 : 0, slips = 0;
    for (var i = 0; i < q.names.length; i++) {
      var best = 0;
      for (var j = 0; j < entry.words.length; j++) best = Math.max(best, fit(q.names[i], entry.words[j]));
      if (best === 0) return [-1, 0];
      if (best === SLIP) slips++;
      total += best;
    }
    return [total, slips];
  }

  function isPart(word) { return word === "woofer" || word === "tweeter"; }

  function channelFits(channel, wanted) {
    var places = wanted.filter(function (w) { return !isPart(w); }), parts = wanted.filter(isPart);
    var placed = !places.length || places.some(function (p) { return channel === p || channel.indexOf(p + "-") === 0; });
    return placed && (!parts.length || parts.some(function (p) {
      return channel.length >= p.length && channel.slice(-p.length) === p;
    }));
  }

  function fittingRows(q, entry) {
    var wanted = q.functions.length ? q.functions : (q.colours.length ? [] : data.mainAnswers);
    var rows = rowsOf(entry).filter(function (row) {
      return (!wanted.length || wanted.indexOf(row.fn) >= 0) && channelFits(row.channel, q.channels) &&
        q.colours.every(function (c) { return row.wire.indexOf(c) >= 0; });
    });
    if (!wanted.length) return rows;
    return rows.map(function (row, i) { return [wanted.indexOf(row.fn), i, row]; })
      .sort(function (a, b) { return a[0] - b[0] || a[1] - b[1]; })
      .map(function (item) { return item[2]; });
  }

  function find(text) { return ranked(text, null).slice(0, MOST_VEHICLES); }

  // Every vehicle that answers, best first; `gone` are ids that answers to questions left out.
  function ranked(text, gone) {
    var q = understand(text), scored = [];
    if (!q.names.length && !q.years && !q.functions.length && !q.channels.length && !q.colours.length) return [];
    entries.forEach(function (entry) {
      if (gone && gone.indexOf(entry.id) >= 0) return;
      var fits = score(q, entry), s = fits[0];
      if (s < 0) return;
      var rows = fittingRows(q, entry);
      if (s > 0 || rows.length) scored.push([-s, rows.length ? 0 : 1, entry.id, { entry: entry, rows: rows }, fits[1]]);
    });
    // A slip of the finger is forgiven only when nothing is spelt as it was asked.
    var fewest = scored.reduce(function (least, item) { return Math.min(least, item[4]); }, Infinity);
    scored = scored.filter(function (item) { return item[4] === fewest; });
    scored.sort(function (a, b) {
      return a[0] - b[0] || a[1] - b[1] || (a[2] < b[2] ? -1 : a[2] > b[2] ? 1 : 0);
    });
    return scored.map(function (item) { return item[3]; });
  }

  // ---- which record is my car? (asking.py) ---------------------------------------------
  function sistersOf(answers) {
    var first = answers[0] && answers[0].entry;
    return answers.filter(function (a) { return a.entry.make === first.make && a.entry.model === first.model; })
      .map(function (a) { return a.entry.id; }).sort();
  }

  function pairsOf(ids) {
    var sorted = ids.slice().sort(), pairs = [];
    sorted.forEach(function (one, i) {
      sorted.slice(i + 1).forEach(function (other) { pairs.push(one + " " + other); });
    });
    return pairs;
  }

  function cut(ask, open) {
    var words = {}, order = [];
    ask.choices.forEach(function (choice) {
      var left = choice.leaves.filter(function (id) { return open.indexOf(id) >= 0; }), key = left.join(" ");
      if (!has.call(words, key)) { words[key] = []; order.push(left); }
      words[key].push(choice.words);
    });
    return { question: ask.question, cost: ask.cost, choices: order.map(function (left) {
      return { words: words[left.join(" ")].join(" or "), leaves: left };
    }) };
  }

  function worthAsking(asks, open) {
    var together = pairsOf(open), kept = [];
    asks.forEach(function (ask) {
      var short = cut(ask, open), alike = [];
      short.choices.forEach(function (choice) { alike = alike.concat(pairsOf(choice.leaves)); });
      var left = together.filter(function (pair) { return alike.indexOf(pair) >= 0; });
      if (left.length < together.length) { kept.push(short); together = left; }
    });
    return kept;
  }

  // What to ask between the answers of the best answer's model, or null when one is left.
  function whichCar(answers, unknown) {
    var open = sistersOf(answers), group = groups.filter(function (g) { return g.ids.indexOf(open[0]) >= 0; })[0];
    if (open.length < 2 || !group) return null;
    var asks = group.asks.filter(function (ask) { return (unknown || []).indexOf(ask.question) < 0; });
    return { open: open, asks: worthAsking(asks, open), same: group.same.filter(function (pair) {
      return open.indexOf(pair[0]) >= 0 && open.indexOf(pair[1]) >= 0;
    }) };
  }

  // ---- the page ----------------------------------------------------------------------
  function element(tag, name, text) {
    var node = document.createElement(tag);
    if (name) node.className = name;
    if (text !== undefined) node.textContent = text;
    return node;
  }

  function heading(answer) {
    var e = answer.entry, title = element("h3", "finder-car"), link = element("a");
    var years = e.yearFrom === e.yearTo ? String(e.yearFrom) : e.yearFrom + "–" + e.yearTo;
    link.href = "vehicles/" + e.id + ".html";
    link.textContent = e.make + " " + e.model + " " + years + ", " + e.variant;
    title.appendChild(link);
    return title;
  }

  function line(row) {
    var item = element("li", "finder-row");
    var name = data.functionNames[row.fn] || row.fn;
    item.appendChild(element("span", "finder-what", row.channel ? row.channel.replace(/-/g, " ") + " " + name : name));
    item.appendChild(document.createTextNode(" "));
    item.appendChild(element("strong", "finder-where", row.cavity === "fuse" ? "fuse " + row.plug : "plug " + row.plug + " cavity " + row.cavity));
    item.appendChild(document.createTextNode(" "));
    item.appendChild(element("span", "finder-wire", row.wire));
    item.appendChild(document.createTextNode(" "));
    item.appendChild(element("span", "finder-grade", row.grade));
    if (row.warning) {
      item.appendChild(document.createTextNode(" "));
      item.appendChild(element("em", "finder-warning", row.warning));
    }
    return item;
  }

  function card(answer, wantsSwitched) {
    var box = element("section", "finder-answer"), list = element("ul", "finder-rows");
    box.appendChild(heading(answer));
    if (wantsSwitched && answer.entry.noSwitched) box.appendChild(element("p", "finder-none", answer.entry.noSwitched));
    else if (!answer.rows.length) box.appendChild(element("p", "finder-none", "Not recorded for this car."));
    answer.rows.forEach(function (row) { list.appendChild(line(row)); });
    if (answer.rows.length) box.appendChild(list);
    return box;
  }

  // Answers given so far belong to one text of the field and are forgotten when it changes.
  var asked = { text: "", gone: [], unknown: [], said: [] };

  function press(words, act, name) {
    var button = element("button", name || "button", words);
    button.type = "button";
    button.addEventListener("click", act);
    return button;
  }

  function answersFor(text) {
    if (asked.text !== text) asked = { text: text, gone: [], unknown: [], said: [] };
    return text ? ranked(text, asked.gone) : [];
  }

  // One question at a time; an answer narrows the list, and "start again" widens it.
  function questions(answers, again) {
    var which = answers.length ? whichCar(answers, asked.unknown) : null, ask = which && which.asks[0];
    if (!ask && !asked.said.length && !(which && which.same.length)) return null;
    var box = element("section", "finder-ask"), buttons = element("p", "finder-choices");
    asked.said.forEach(function (said) { box.appendChild(element("p", "finder-said", said)); });
    if (which) box.appendChild(element("p", "", which.open.length + " records could be this car."));
    if (ask) {
      box.appendChild(element("p", "finder-question", ask.question + " (" + data.costWords[ask.cost] + ")"));
      ask.choices.forEach(function (choice) {
        buttons.appendChild(press(choice.words, function () {
          asked.gone = asked.gone.concat(which.open.filter(function (id) { return choice.leaves.indexOf(id) < 0; }));
          asked.said.push(ask.question + " " + choice.words);
          again();
        }));
      });
      buttons.appendChild(press("I do not know", function () {
        asked.unknown.push(ask.question);
        asked.said.push(ask.question + " not known");
        again();
      }));
    } else if (which) {
      box.appendChild(element("p", "finder-none", asked.unknown.length ?
        "None of them is yours until the rest is known." :
        "No question of the book tells these apart: prove the pins on the car before you take one for yours."));
    }
    if (asked.said.length) {
      buttons.appendChild(press("Start again", function () { asked.text = null; again(); }));
    }
    box.appendChild(buttons);
    return box;
  }

  function show(field, place) {
    var text = field.value.trim(), answers = answersFor(text), box;
    var wantsSwitched = understand(text).functions.indexOf("retained") >= 0;
    place.textContent = "";
    if (text && !answers.length) place.appendChild(element("p", "finder-none", asked.gone.length ? "No record of this book is that car." : "Nothing in this book fits. Fewer words may help."));
    box = questions(answers, function () {
      show(field, place);
      var first = place.querySelector(".finder-ask button");
      if (first) first.focus();
    });
    if (box) place.appendChild(box);
    answers.slice(0, MOST_VEHICLES).forEach(function (answer) { place.appendChild(card(answer, wantsSwitched)); });
  }

  function start() {
    var field = document.getElementById("finder-field"), place = document.getElementById("finder-answers");
    if (!field || !place || !window.loombookFinderData) return;
    load(window.loombookFinderData);
    field.addEventListener("input", function () { show(field, place); });
    field.form && field.form.addEventListener("submit", function (event) { event.preventDefault(); show(field, place); });
    if (field.value) show(field, place);
  }

  window.loombookFinder = { load: load, find: find, understand: understand, ranked: ranked, whichCar: whichCar };
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
