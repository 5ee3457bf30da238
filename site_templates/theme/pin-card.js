// The card of a pin: its place on both faces at once, then wire, grade and what it reads. On a car's
// page it is put together from what the page holds and opens where it was asked for; the finder
// draws the faces itself. Without scripts a pin leads to its line in the table, which says it all.
(function () {
  "use strict";
  var SVG = "http://www.w3.org/2000/svg";

  function element(tag, name, text) {
    var node = document.createElement(tag);
    if (name) node.className = name;
    if (text !== undefined) node.textContent = text;
    return node;
  }

  function shape(name, attributes, parent, before) {
    var node = document.createElementNS(SVG, name);
    Object.keys(attributes).forEach(function (key) { node.setAttribute(key, attributes[key]); });
    parent.insertBefore(node, before);
  }

  // Where a cavity is: drawn here, or a shape of the page that is put here.
  function boxOf(group) {
    var put = group.querySelector("use"), drawn = put ? document.getElementById(put.getAttribute("href").slice(1)) : group;
    var rect = drawn.querySelector(".lb-socket"), from = put || rect;
    return [from, from, rect, rect].map(function (node, at) {
      return Number(node.getAttribute(["x", "y", "width", "height"][at]));
    });
  }

  // The one cavity in the colours of its wire, ringed; its number stands on a clear ground.
  function mark(svg, cavity, colours) {
    var group = Array.prototype.filter.call(svg.querySelectorAll(".lb-cavity"), function (one) {
      return one.querySelector("title").textContent.indexOf(cavity + ":") === 0;
    })[0], number, box, at;
    if (!group) return;
    number = group.querySelector("text");
    box = boxOf(group);
    at = [Number(number.getAttribute("x")), Number(number.getAttribute("y")) - 4.5];
    if (colours[0]) shape("rect", { x: box[0] + 1, y: box[1] + 1, width: box[2] - 2, height: box[3] - 2, fill: colours[0], "class": "lb-run" }, number.parentNode, number);
    if (colours[1]) shape("rect", { x: box[0] + box[2] / 2 - 3, y: box[1] + 1, width: 6, height: box[3] - 2, fill: colours[1], "class": "lb-run-stripe" }, number.parentNode, number);
    shape("circle", { cx: at[0], cy: at[1], r: 8, "class": "card-number" }, number.parentNode, number);
    number.setAttribute("class", "card-number-text");
    shape("rect", { x: box[0] - 3, y: box[1] - 3, width: box[2] + 6, height: box[3] + 6, rx: 5, fill: "none", "class": "lb-ring", "stroke-width": 3.5 }, svg, null);
  }

  // A drawing of the page once more, without what only one of a page may have.
  function copyOf(svg) {
    var copy = svg.cloneNode(true), title = copy.querySelector("title"), words = copy.querySelector("desc");
    copy.setAttribute("aria-label", title ? title.textContent : "");
    ["aria-labelledby", "aria-describedby", "id"].forEach(function (key) { copy.removeAttribute(key); });
    copy.querySelectorAll("[id]").forEach(function (node) { node.removeAttribute("id"); });
    if (words) words.parentNode.removeChild(words);
    if (title && title.parentNode === copy) copy.removeChild(title);
    withoutCaption(copy);
    copy.querySelectorAll(".lb-ring").forEach(function (ring) { ring.parentNode.removeChild(ring); });
    return copy;
  }

  // The card says below each face what it shows: the drawing's own lines above it go.
  function withoutCaption(svg) {
    var box = svg.getAttribute("viewBox").split(" ").map(Number), above = 38;
    svg.setAttribute("viewBox", [box[0], box[1] + above, box[2], box[3] - above].join(" "));
    ["width", "height"].forEach(function (key) { svg.removeAttribute(key); });
    svg.querySelectorAll(".lb-eye").forEach(function (eye) { eye.parentNode.removeChild(eye); });
    svg.setAttribute("overflow", "hidden");
  }

  var CAPTIONS = [["Wires side", "you see the wires entering"], ["Open face", "you look into it"]];

  function figures(faces) {
    var box = element("div", "card-faces");
    faces.forEach(function (svg, at) {
      var figure = element("figure", at ? "" : "card-large"), words = element("figcaption");
      figure.appendChild(svg);
      words.appendChild(element("b", "", CAPTIONS[at][0]));
      words.appendChild(document.createTextNode(" " + CAPTIONS[at][1]));
      figure.appendChild(words);
      box.appendChild(figure);
    });
    return box;
  }

  function larger(box) {
    var button = element("button", "card-swap", "Draw the other face larger");
    button.type = "button";
    button.addEventListener("click", function () {
      Array.prototype.forEach.call(box.children, function (figure) { figure.classList.toggle("card-large"); });
    });
    return button;
  }

  // Both drawings, which are changed, with each cavity of `marks` ringed; and what swaps their sizes.
  function facesOf(drawings, marks) {
    var box;
    marks.forEach(function (one) { drawings.forEach(function (svg) { mark(svg, one[0], one[1]); }); });
    box = figures(drawings);
    return [box, larger(box)];
  }

  // `pin` is {place, does, parts: nodes that say wire, grade and fuse, marks: [[cavity, colours]],
  // faces: [wire side, open face] or none, states: a node or null, links: nodes, close: what Escape
  // does}. It reads pin, function, wire, grade, states; the style sheet draws the faces above them.
  function card(pin) {
    var box = element("article", "pin-card"), who = element("div", "card-who"), says = element("div");
    box.tabIndex = -1;
    box.setAttribute("aria-label", pin.place.replace("\n", " and ") + ": " + pin.does);
    box.addEventListener("keydown", function (event) {
      if (event.key !== "Escape") return;
      event.stopPropagation();
      pin.close();
    });
    who.appendChild(element("b", pin.place.indexOf("\n") < 0 ? "plate" : "plate two", pin.place));
    says.appendChild(element("h3", "", pin.does));
    pin.parts.forEach(function (part) { says.appendChild(part); });
    who.appendChild(says);
    box.appendChild(who);
    if (pin.states) box.appendChild(pin.states);
    if (pin.faces && pin.faces.length) {
      facesOf(pin.faces, pin.marks).forEach(function (part) { box.appendChild(part); });
    }
    box.appendChild(pin.links);
    return box;
  }

  // ---- on the page of a car -----------------------------------------------------------------
  function coloursIn(wire) {
    return Array.prototype.map.call(wire ? wire.querySelectorAll(".lb-swatch rect") : [], function (rect) {
      return rect.getAttribute("fill");
    }).filter(function (fill) { return fill && fill !== "none"; });
  }

  function wordsOf(node) { return node.textContent.trim().replace(/\s+/g, " "); }

  function fromPage(body, links, close) {
    var row = body.querySelector("tr.pin"), plug = body.closest("section.plug"), wire = element("p", "card-wire");
    var grade = element("p", "card-grade"), states = body.querySelector(".states"), fuse = row.querySelector(".fuse:not(.nothing)");
    Array.prototype.forEach.call(row.querySelector(".wire").children, function (part) { wire.appendChild(part.cloneNode(true)); });
    grade.appendChild(row.querySelector(".grade").cloneNode(true));
    if (fuse) grade.appendChild(element("span", "card-fuse", "fuse " + wordsOf(fuse)));
    return card({
      place: wordsOf(row.querySelector("th")), does: wordsOf(row.querySelector(".does")),
      parts: [wire, grade], marks: [[body.getAttribute("data-cavity"), coloursIn(row.querySelector(".wire"))]],
      faces: Array.prototype.map.call(plug.querySelectorAll(".faces > .face > svg"), copyOf),
      states: states && states.cloneNode(true), links: links, close: close
    });
  }

  function linksOf(link, close) {
    var box = element("p", "card-links"), proof = element("a", "button", "Its proof"), plans = element("a", "button", "Plans for this car");
    var shut = element("button", "button", "Close");
    proof.href = link.getAttribute("href");
    plans.href = "#plans";
    shut.type = "button";
    shut.addEventListener("click", close);
    [proof, plans, shut].forEach(function (one) { box.appendChild(one); });
    return box;
  }

  function opened(event) {
    var link = event.target.closest && event.target.closest(".answers a.lead"), body, place, made;

    function close() {
      made.parentNode.removeChild(made);
      link.focus();
    }

    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    body = document.getElementById(link.getAttribute("href").slice(1));
    if (!body || !body.querySelector("tr.pin")) return;
    event.preventDefault();
    place = link.closest(".answer");
    document.querySelectorAll(".answers .pin-card").forEach(function (old) { old.parentNode.removeChild(old); });
    made = fromPage(body, linksOf(link, close), close);
    place.appendChild(made);
    made.focus({ preventScroll: true });
    made.scrollIntoView({ block: "nearest" });
  }

  document.addEventListener("click", opened);
  window.loombookCard = { card: card, coloursIn: coloursIn, copyOf: copyOf, faces: facesOf, withoutCaption: withoutCaption };
})();
