// The face of a plug, drawn as on the pages of the cars; record-maker-face.js makes its cavities buttons.
// Places and sizes are those of builder/rendering/drawings (plug_geometry, plug_faces); a test compares them.
(function () {
  "use strict";
  const SVG = "http://www.w3.org/2000/svg";
  const EDGE = 5, CAPTION = 40, LATCH = 15, LEAVING = 13, LATCH_LONG = 56, WALL = 9, TALL = 30, ROW_GAP = 5, NARROWEST = 236, GROWTH_MAX = 1.7;
  const PITCHES = [[10.5, 31], [14.5, 24], [Infinity, 20]];
  const TURNED = { left: "right", right: "left", top: "bottom", bottom: "top" };
  const CORNERS = ["top_left", "top_right", "bottom_right", "bottom_left"];
  const CAPTIONS = { wire_side: "looking at the wires entering", mating_side: "looking into the open face" };
  const NARROW = "ijlI.,:;'|!()[] f/rt-", WIDE = "mwMWQ@%—…+−=<>≥≤";

  // Whether the other face, held with the latch at the same edge, shows the rows swapped
  // (Housing.rows_swap); else left and right change places.
  function rowsSwap(latch) { return latch === "left" || latch === "right"; }

  function cornerOver(corner, swap) {
    const of = corner.split("_");
    return swap ? TURNED[of[0]] + "_" + of[1] : of[0] + "_" + TURNED[of[1]];
  }

  function textWidth(text, size) {
    const em = (char) => NARROW.indexOf(char) >= 0 ? 0.4 : WIDE.indexOf(char) >= 0 ? 0.99 : /^[A-Z]$/.test(char) ? 0.72 : 0.64;
    return Array.from(text).reduce((sum, char) => sum + em(char), 0) * size;
  }

  // ---- where everything is (plug_geometry.py) ---------------------------------------------------
  function growths(housing) {
    const widths = new Map();
    housing.rows.forEach((row) => row.forEach((name) => { if (name !== null) widths.set(name, housing.sizes[name] || housing.blade_mm); }));
    const least = Math.min.apply(null, Array.from(widths.values()).concat(widths.size ? [] : [1]));
    widths.forEach((mm, name) => widths.set(name, Math.min(GROWTH_MAX, 0.7 + 0.3 * mm / least)));
    return widths;
  }

  function shellOf(inner, latch) {
    const w = inner[0] + 2 * WALL, h = inner[1] + 2 * WALL, beside = rowsSwap(latch) ? LATCH : 0;
    const width = Math.max(NARROWEST, w + beside + 2 * EDGE), x = (width - w - beside) / 2 + (latch === "left" ? LATCH : 0);
    const y = CAPTION + LATCH + 2, across = Math.min(LATCH_LONG, w - 16), up = Math.min(LATCH_LONG, h - 4);
    const boxes = { top: [x + (w - across) / 2, y - LATCH, across, LATCH], bottom: [x + (w - across) / 2, y + h, across, LATCH],
      left: [x - LATCH, y + (h - up) / 2, LATCH, up], right: [x + w, y + (h - up) / 2, LATCH, up] };
    return { shell: [x, y, w, h], latchBox: boxes[latch], width: width, height: y + h + LATCH + EDGE };
  }

  function laidOut(housing) {
    const least = Math.min.apply(null, housing.rows.map((row, at) => housing.row_shift[at] || 0));
    const shifts = housing.rows.map((row, at) => (housing.row_shift[at] || 0) - least);
    const columns = Math.max.apply(null, housing.rows.map((row, at) => shifts[at] + row.length));
    const pitch = PITCHES.find((one) => columns <= one[0])[1], growth = growths(housing);
    const heights = housing.rows.map((row) => Math.max.apply(null, row.some((n) => n !== null) ? row.filter((n) => n !== null).map((n) => growth.get(n)) : [1]) * TALL);
    const face = shellOf([columns * pitch, heights.reduce((a, b) => a + b, 0) + ROW_GAP * heights.length], housing.latch);
    let top = face.shell[1] + WALL + ROW_GAP / 2;
    face.cells = [];
    housing.rows.forEach(function (row, at) {
      row.forEach(function (name, column) {
        if (name === null) return;
        const g = growth.get(name), w = Math.min(pitch - 3, 0.81 * pitch * (1 + 0.4 * (g - 1))), h = TALL * g;
        const centre = face.shell[0] + WALL + shifts[at] * pitch + (column + 0.5) * pitch;
        face.cells.push({ name: name, row: at, x: centre - w / 2, y: top + heights[at] / 2 - h / 2, w: w, h: h });
      });
      top += heights[at] + ROW_GAP;
    });
    face.lettering = Math.min.apply(null, face.cells.map((cell) => Math.min(13, 13 * (cell.w - 2) / textWidth(cell.name, 13))));
    return Object.assign(face, { latch: housing.latch, corner: housing.keyed_corner || null });
  }

  function turnedOver(face, rows) {
    const swap = rowsSwap(face.latch), down = 2 * face.shell[1] + face.shell[3];
    const over = (cell) => swap ? { row: rows - 1 - cell.row, y: down - cell.y - cell.h } : { x: face.width - cell.x - cell.w };
    return Object.assign({}, face, { corner: face.corner && cornerOver(face.corner, swap),
      cells: face.cells.map((cell) => Object.assign({}, cell, over(cell))) });
  }

  // The face of {rows, row_shift, blade_mm, sizes, latch, keyed_corner, seen_from} in a view.
  function faceOf(housing, view) {
    const face = laidOut(housing);
    return view === housing.seen_from ? face : turnedOver(face, housing.rows.length);
  }

  // ---- drawing (plug_faces.py, shapes.py) ----------------------------------------------------------
  function number(value) { return String(Math.round(value * 10) / 10 + 0); }

  function node(name, attributes, parent) {
    const made = document.createElementNS(SVG, name);
    Object.keys(attributes).forEach((key) => made.setAttribute(key, attributes[key]));
    if (parent) parent.appendChild(made);
    return made;
  }

  function stroke(parent, d, css, more) { return node("path", Object.assign({ class: css, d: d, fill: "none", stroke: "currentColor" }, more), parent); }

  function write(parent, x, y, text, size, more) {
    node("text", Object.assign({ x: number(x), y: number(y), "font-size": number(size) }, more), parent).textContent = text;
  }

  function outline(face, inset) {
    const s = face.shell, x = s[0] + inset, y = s[1] + inset, w = s[2] - 2 * inset, h = s[3] - 2 * inset;
    const c = CORNERS.map((corner) => corner === face.corner ? 11 : 3);
    const points = [[x + c[0], y], [x + w - c[1], y], [x + w, y + c[1]], [x + w, y + h - c[2]], [x + w - c[2], y + h], [x + c[3], y + h], [x, y + h - c[3]], [x, y + c[0]]];
    return "M" + points.map((p) => number(p[0]) + " " + number(p[1])).join("L") + "Z";
  }

  function tab(face) {
    const b = face.latchBox, x = b[0], y = b[1], w = b[2], h = b[3];
    const points = { top: [[x, y + h], [x + 3, y], [x + w - 3, y], [x + w, y + h]], bottom: [[x, y], [x + 3, y + h], [x + w - 3, y + h], [x + w, y]],
      left: [[x + w, y], [x, y + 3], [x, y + h - 3], [x + w, y + h]], right: [[x, y], [x + w, y + 3], [x + w, y + h - 3], [x, y + h]] }[face.latch];
    return "M" + points.map((p) => number(p[0]) + " " + number(p[1])).join("L");
  }

  function steps(start, length, step) {
    const count = Math.max(1, Math.floor(length / step)), first = start + (length - step * (count - 1)) / 2;
    return Array.from({ length: count }, (none, index) => first + index * step);
  }

  function slanted(x, y, w, h, rises) {
    let d = "";
    for (let reach = 3.5; reach < w + h; reach += 7) {
      const near = Math.max(0, reach - h), far = Math.min(reach, w), up = (at) => rises ? y + (reach - at) : y + h - (reach - at);
      d += "M" + number(x + near) + " " + number(up(near)) + "L" + number(x + far) + " " + number(up(far));
    }
    return d;
  }

  function hatch(parent, kind, x, y, w, h) {
    if (kind === "solid") return node("rect", { class: "lb-solid", x: number(x), y: number(y), width: number(w), height: number(h) }, parent);
    const dots = () => steps(y, h, 4.5).map((down) => steps(x, w, 4.5).map((across) => "M" + number(across) + " " + number(down) + "h.1").join("")).join("");
    const paths = { level: () => steps(y, h, 4).map((at) => "M" + number(x) + " " + number(at) + "h" + number(w)).join(""),
      upright: () => steps(x, w, 4).map((at) => "M" + number(at) + " " + number(y) + "v" + number(h)).join(""),
      dots: dots, rising: () => slanted(x, y, w, h, true), crossed: () => slanted(x, y, w, h, true) + slanted(x, y, w, h, false) };
    return node("path", Object.assign({ class: "lb-hatch", d: paths[kind](), stroke: "currentColor" }, kind === "dots" ? { "stroke-width": "2", "stroke-linecap": "round" } : {}), parent);
  }

  // The wire of a cavity as it leaves the housing (plug_wires.py, wire_strokes.py).
  function leaving(parent, face, cell, wire) {
    const last = Math.max.apply(null, face.cells.map((one) => one.row)), up = 2 * cell.row <= last, s = face.shell;
    const end = up ? s[1] - LEAVING : s[1] + s[3] + LEAVING, beside = cell.x + cell.w + 1.5;
    const d = cell.row === 0 || cell.row === last ? "M" + number(cell.x + cell.w / 2) + " " + number(up ? cell.y : cell.y + cell.h) + "V" + number(end) :
      "M" + number(beside - 3) + " " + number(cell.y + cell.h / 2) + "H" + number(beside) + "V" + number(end);
    const group = node("g", { class: "lb-leaving" }, parent);
    stroke(group, d, "lb-case", { "stroke-width": "6.4" });
    stroke(group, d, wire[0] ? "lb-run" : "lb-paper", { "stroke-width": "4.6", stroke: wire[0] || "white" });
    if (wire[0] && wire[1]) stroke(group, d, "lb-run-stripe", { "stroke-width": "1.6", stroke: wire[1], "stroke-dasharray": "6 5" });
  }

  function cavity(parent, face, cell, use, view) {
    const group = node("g", { class: "lb-cavity lb-" + use.kind }, parent), low = cell.h * 0.4;
    node("title", {}, group).textContent = cell.name + ": " + use.words;
    const dash = use.kind === "blank" ? { "stroke-dasharray": "2 3" } : {};
    node("rect", Object.assign({ class: "lb-socket", x: number(cell.x), y: number(cell.y), width: number(cell.w), height: number(cell.h), rx: view === "wire_side" ? "5" : "0", fill: "none", stroke: "currentColor" }, dash), group);
    if (view === "mating_side" && use.kind !== "empty" && use.kind !== "blocked") stroke(group, "M" + number(cell.x + cell.w * 0.25) + " " + number(cell.y + 3) + "h" + number(cell.w * 0.5), "lb-terminal", { "stroke-width": "2.2" });
    if (use.hatch) hatch(group, use.hatch, cell.x, cell.y + cell.h - low, cell.w, low);
    if (use.kind === "blocked") {
      stroke(group, "M" + number(cell.x) + " " + number(cell.y + cell.h - low) + "l" + number(cell.w) + " " + number(low) +
        "M" + number(cell.x + cell.w) + " " + number(cell.y + cell.h - low) + "l" + number(-cell.w) + " " + number(low), "lb-shut");
    }
    write(group, cell.x + cell.w / 2, cell.y + (cell.h - low) / 2 + face.lettering * 0.36, cell.name, face.lettering, { "text-anchor": "middle", "font-weight": "700" });
    return group;
  }

  function shell(svg, face, view) {
    stroke(svg, outline(face, 0), "lb-shell", {});
    if (view === "mating_side") stroke(svg, outline(face, 4), "lb-rim lb-cave", {});
  }

  // `seen`: from where to where the drawing shows it, when not all of it.
  function latch(svg, face, seen) {
    stroke(svg, tab(face), "lb-latch");
    const b = face.latchBox, from = seen ? Math.max(b[0], seen[0]) : b[0], to = seen ? Math.min(b[0] + b[2], seen[1]) : b[0] + b[2];
    const middle = [(from + to) / 2, b[1] + b[3] / 2];
    if (seen && to - from < Math.min(b[2], 28)) return;
    write(svg, middle[0], middle[1] + 3.5, "latch", 10, Object.assign({ "text-anchor": "middle" },
      b[3] > b[2] ? { transform: "rotate(-90 " + number(middle[0]) + " " + number(middle[1]) + ")" } : {}));
  }

  // The drawing as an svg element. `uses` maps a cavity to {kind, hatch, words}.
  function draw(housing, view, name, uses) {
    const face = faceOf(housing, view);
    const svg = node("svg", { class: "lb-drawing lb-plug lb-plug-" + view[0], width: number(face.width), height: number(face.height),
      viewBox: "0 0 " + number(face.width) + " " + number(face.height), "font-family": "sans-serif", fill: "currentColor", role: "img" });
    svg.setAttribute("aria-label", name + ", " + CAPTIONS[view] + ", latch " + face.latch);
    write(svg, 6, 15, name, 13, { "font-weight": "700" });
    write(svg, 6, 31, CAPTIONS[view], 12);
    shell(svg, face, view);
    face.cells.forEach(function (cell) {
      const use = uses[cell.name] || { kind: "blank", hatch: "", words: "not described" };
      cavity(svg, face, cell, use, view);
      if (view === "wire_side" && use.wire) leaving(svg, face, cell, use.wire);
    });
    latch(svg, face);
    return svg;
  }

  window.loombookFace = { faceOf: faceOf, draw: draw, node: node, shell: shell, cavity: cavity, latch: latch, captions: CAPTIONS, wall: WALL };
})();
