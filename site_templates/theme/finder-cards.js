// What the finder shows: a card for each car, and the question that tells cars apart. Texts of
// records go into the page as text, never as markup.
(function () {
  "use strict";
  var SVG = "http://www.w3.org/2000/svg";
  var book = window.loombookBook, samples = Object.create(null);

  function element(tag, name, text) {
    var node = document.createElement(tag);
    if (name) node.className = name;
    if (text !== undefined) node.textContent = text;
    return node;
  }

  function press(words, act, name) {
    var button = element("button", name || "button", words);
    button.type = "button";
    button.addEventListener("click", act);
    return button;
  }

  function title(entry) { return entry.make + " " + entry.model + " " + entry.years + ", " + entry.variant; }

  // A link to a car's page; beside it, what only this shop may see is called private.
  function linkTo(box, entry, opened) {
    var link = element("a", "", title(entry));
    link.href = (window.loombookRoot || "") + "vehicles/" + entry.id + ".html";
    link.addEventListener("click", function () { opened(entry.id); });
    box.appendChild(link);
    if (entry.isPrivate) {
      box.appendChild(document.createTextNode(" "));
      box.appendChild(element("small", "private", "private"));
    }
    return box;
  }

  // A sample of a wire, base with its stripe; the words beside it say the same. Drawn once, then copied.
  function swatch(wire) {
    if (samples[wire] === undefined) samples[wire] = drawn(wire);
    return samples[wire] && samples[wire].cloneNode(true);
  }

  function drawn(wire) {
    var hex = book.data().wireHex, colours = wire.split("/"), svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("class", "lb-swatch");
    svg.setAttribute("viewBox", "0 0 36 12");
    svg.setAttribute("width", "36");
    svg.setAttribute("height", "12");
    svg.setAttribute("aria-hidden", "true");
    bar(svg, 1, 10, hex[colours[0]], true);
    if (colours[1]) bar(svg, 4.5, 3, hex[colours[1]], false);
    return hex[colours[0]] ? svg : null;
  }

  function bar(svg, top, height, hex, edge) {
    var rect = document.createElementNS(SVG, "rect");
    [["x", 1], ["y", top], ["width", 34], ["height", height], ["fill", hex ? "#" + hex : "none"]].forEach(function (pair) {
      rect.setAttribute(pair[0], pair[1]);
    });
    if (edge) rect.setAttribute("stroke", "currentColor");
    svg.appendChild(rect);
  }

  function wires(row) {
    var box = element("span", "finder-wire");
    row.wire.split(" and ").forEach(function (wire, i) {
      var sample = row.cavity === "fuse" ? null : swatch(wire);
      if (i) box.appendChild(document.createTextNode(" and "));
      if (sample) box.appendChild(sample);
      if (sample) box.appendChild(document.createTextNode(" "));
      box.appendChild(document.createTextNode(wire));
    });
    return box;
  }

  // ---- the card of a pin, in place ---------------------------------------------------------------
  function coloursOf(wire) {
    var hex = book.data().wireHex;
    return wire.split("/").map(function (word) { return hex[word] ? "#" + hex[word] : ""; });
  }

  // The cavities of a row with the colours of their wires.
  function marksOf(row) {
    var legs = row.wire.split(" and ");
    return row.cavity.split(" / ").map(function (leg, at) { return [leg.split(" ")[0], coloursOf(legs[at] || "")]; });
  }

  function placeOf(row) {
    return row.cavity === "fuse" ? "fuse " + row.plug : row.cavity.split(" / ").map(function (leg) {
      return row.plug + "." + leg.split(" ")[0];
    }).join("\n");
  }

  function statesOf(row) {
    var fields = (book.data().states || {})[row.fn] || [], list = element("ol", "states");
    list.setAttribute("aria-label", "Volts against ground, state by state");
    fields.forEach(function (field) {
      var item = element("li", field[2] ? "live" : "");
      item.appendChild(element("span", "", field[0] + " "));
      item.appendChild(element("b", "", field[1]));
      list.appendChild(item);
    });
    return fields.length ? list : null;
  }

  function facesOf(row, rows, shell) {
    var uses = {};
    if (!shell) return [];
    rows.forEach(function (other) {
      if (other.plug === row.plug && other.cavity !== "fuse") marksOf(other).forEach(function (one) {
        uses[one[0]] = { kind: "other", hatch: "", words: other.fn, wire: one[1] };
      });
    });
    shell.blocked.forEach(function (name) { uses[name] = { kind: "blocked", hatch: "", words: "moulded shut" }; });
    return ["wire_side", "mating_side"].map(function (view) {
      var svg = window.loombookFace.draw(shell, view, "plug " + row.plug, uses);
      window.loombookCard.withoutCaption(svg);
      return svg;
    });
  }

  function cardLinks(entry, row) {
    var box = element("p", "card-links"), page = (window.loombookRoot || "") + "vehicles/" + entry.id + ".html";
    var cavity = row.cavity.split(" / ")[0].split(" ")[0];
    [["Its proof", page + (row.cavity === "fuse" ? "" : "#" + anchor(row.plug, cavity))], ["Plans for this car", page + "#plans"]].forEach(function (pair) {
      var link = element("a", "button", pair[0]);
      link.href = pair[1];
      box.appendChild(link);
    });
    return box;
  }

  // As builder/rendering/pages/wording.py names the line of a pin.
  function anchor(plug, cavity) {
    return "pin-" + [plug, cavity].map(function (part) { return part.replace(/[^A-Za-z0-9]+/g, "-"); }).join("-");
  }

  function openCard(item, answer, row) {
    var opener = item.querySelector(".finder-open");
    if (item.querySelector(".pin-card")) return closeCard(item, opener);
    book.fetchShell(row.cavity === "fuse" ? "" : book.shellOf(answer.entry.at, row.plug), function (shell) {
      if (item.querySelector(".pin-card")) return;
      var grade = element("p", "card-grade");
      grade.appendChild(item.querySelector(".finder-grade").cloneNode(true));
      opener.setAttribute("aria-expanded", "true");
      item.appendChild(window.loombookCard.card({
        place: placeOf(row), does: (row.channel ? row.channel.replace(/-/g, " ") + " " : "") + (book.data().functionNames[row.fn] || row.fn),
        parts: [wires(row), grade], marks: row.cavity === "fuse" ? [] : marksOf(row), faces: facesOf(row, answer.all, shell),
        states: statesOf(row), links: cardLinks(answer.entry, row), close: function () { closeCard(item, opener); }
      }));
    });
  }

  function closeCard(item, opener) {
    item.removeChild(item.querySelector(".pin-card"));
    opener.setAttribute("aria-expanded", "false");
    opener.focus();
  }

  function line(row, answer) {
    var data = book.data(), item = element("li", "finder-row"), name = data.functionNames[row.fn] || row.fn;
    var grade = element("span", "finder-grade"), mark = data.gradeMarks[row.grade];
    if (mark) grade.appendChild(element("span", "mark", mark));
    grade.appendChild(document.createTextNode((mark ? " " : "") + row.grade));
    var where = press("", function () { openCard(item, answer, row); }, "finder-open");
    where.setAttribute("aria-expanded", "false");
    where.appendChild(element("strong", "finder-where", row.cavity === "fuse" ? "fuse " + row.plug : "plug " + row.plug + " cavity " + row.cavity));
    [
      element("span", "finder-what", row.channel ? row.channel.replace(/-/g, " ") + " " + name : name), where,
      wires(row), grade
    ].concat(row.warning ? [element("em", "finder-warning", row.warning)] : []).forEach(function (part, i) {
      if (i) item.appendChild(document.createTextNode(" "));
      item.appendChild(part);
    });
    return item;
  }

  // A car with its rows; `most` shows the first of them, for a list of cars nobody asked a wire of.
  // The only row of the only car opens its card at once, when it is what was asked for.
  function card(answer, most, opened, alone) {
    var box = element("section", "finder-answer"), list = element("ul", "finder-rows");
    var rows = answer.rows.slice(0, most);
    box.appendChild(linkTo(element("h2", "finder-car"), answer.entry, opened));
    answer.notes.forEach(function (note) { box.appendChild(element("p", "finder-none", note)); });
    if (!answer.rows.length && !answer.notes.length) box.appendChild(element("p", "finder-none", "Not recorded for this car."));
    rows.forEach(function (row) { list.appendChild(line(row, answer)); });
    if (rows.length) box.appendChild(list);
    if (alone && rows.length === 1 && !answer.notes.length) openCard(list.firstChild, answer, rows[0]);
    if (rows.length && rows.length < answer.rows.length) {
      box.appendChild(element("p", "finder-more", (answer.rows.length - rows.length) + " more on its page"));
    }
    return box;
  }

  // Pages by their titles, each with what it is.
  function pageList(found) {
    var list = element("ul", "links finder-pages");
    found.forEach(function (page) {
      var item = element("li"), link = element("a", "", page.title + " ");
      link.href = (window.loombookRoot || "") + page.url;
      link.appendChild(element("small", "", page.kind));
      item.appendChild(link);
      list.appendChild(item);
    });
    return list;
  }

  // One question at a time. `asked` holds what was said so far, `answer` takes what is said now.
  function questions(which, asked, answer) {
    var ask = which && which.asks[0], box, buttons = element("p", "finder-choices");
    if (!ask && !asked.said.length && !(which && which.same.length)) return null;
    box = element("section", "finder-ask");
    asked.said.forEach(function (said) { box.appendChild(element("p", "finder-said", said)); });
    if (which) box.appendChild(element("p", "", which.open.length + " records could be this car."));
    if (ask) {
      box.appendChild(element("p", "finder-question", ask.question + " (" + book.data().costWords[ask.cost] + ")"));
      ask.choices.forEach(function (choice) {
        buttons.appendChild(press(choice.words, function () { answer(ask, choice); }));
      });
      buttons.appendChild(press("I do not know", function () { answer(ask, null); }));
    } else if (which) {
      box.appendChild(element("p", "finder-none", asked.unknown.length ?
        "None of them is yours until the rest is known." :
        "No question of the book tells these apart: prove the pins on the car before you take one for yours."));
    }
    if (asked.said.length) buttons.appendChild(press("Start again", function () { answer(null, null); }));
    box.appendChild(buttons);
    return box;
  }

  // What stands in a box, by what it says: a keystroke that changes no answer makes nothing anew, and
  // what was opened or has the focus stays. `pieces` are pairs of that and how it is made.
  function put(box, pieces) {
    var before = box.pieces || {}, now = Object.create(null);
    pieces.forEach(function (piece, i) {
      var node = now[piece[0]] = before[piece[0]] || piece[1]();
      if (box.childNodes[i] !== node) box.insertBefore(node, box.childNodes[i] || null);
    });
    while (box.childNodes.length > pieces.length) box.removeChild(box.lastChild);
    box.pieces = now;
  }

  window.loombookCards = { element: element, press: press, title: title, linkTo: linkTo, card: card, questions: questions, line: line, pageList: pageList, put: put };
})();
