// The face of a plug whose cavities are pressed, as wide as its place. Where ten columns would be too
// narrow for a thumb, the drawing is cut from top to bottom and its pieces stand one under the other: each
// is an uncut stretch of the very drawing that plug-face.js makes, all rows and the latch where they lie,
// so that nobody counts a row that the housing does not have. Lengths are px, but those of a face.
(function () {
  "use strict";
  const face = window.loombookFace, THUMB = 44, EASY = 48, AMPLE = 64, ROWS_WHOLE = 60, RIM = 3, NEAR = 2.5;
  const SIDES = [["the whole face"], ["left half", "right half"]];

  // ---- where a thumb meets a cavity ----------------------------------------------------------------
  // Half way to its neighbours of the row; at the end of a row as far as on the other side.
  function reach(cells) {
    const found = new Map(), rows = new Map();
    cells.forEach((cell) => rows.set(cell.row, (rows.get(cell.row) || []).concat(cell)));
    rows.forEach(function (row) {
      row.sort((a, b) => a.x - b.x);
      row.forEach(function (cell, at) {
        const before = at ? (cell.x - row[at - 1].x - row[at - 1].w) / 2 : null, behind = at + 1 < row.length ? (row[at + 1].x - cell.x - cell.w) / 2 : null;
        const left = Math.min(8, before === null ? behind === null ? 3 : behind : before), right = Math.min(8, behind === null ? left : behind);
        found.set(cell, { x: cell.x - left, w: left + cell.w + right, y: cell.y - NEAR, h: cell.h + 2 * NEAR });
      });
    });
    return found;
  }

  function least(all, side) { return Math.min.apply(null, Array.from(all.values()).map((one) => one[side])); }

  // ---- where it is cut ---------------------------------------------------------------------------------
  // The columns of a drawing; a row that is shifted by half makes them half a one more.
  function columnsOf(shell) {
    const shifts = shell.rows.map((row, at) => shell.row_shift[at] || 0), least = Math.min.apply(null, shifts);
    return Math.max.apply(null, shell.rows.map((row, at) => shifts[at] - least + row.length));
  }

  // The cells of pieces from the left, each with so many columns; a cell belongs where its middle is.
  function parted(drawn, columns, each) {
    const from = drawn.shell[0] + face.wall, pitch = (drawn.shell[2] - 2 * face.wall) / columns, pieces = [];
    drawn.cells.forEach(function (cell) {
      const at = Math.floor((cell.x + cell.w / 2 - from) / pitch / each);
      (pieces[at] = pieces[at] || []).push(cell);
    });
    return pieces.filter(Boolean);
  }

  // What of the drawing a piece shows: its cells, and the rim of the shell where it ends there.
  function windows(drawn, pieces, thumbs) {
    const shell = drawn.shell, latch = drawn.latchBox, left = Math.min(shell[0], latch[0]) - RIM, right = Math.max(shell[0] + shell[2], latch[0] + latch[2]) + RIM;
    return pieces.map(function (cells, at) {
      const own = cells.map((cell) => thumbs.get(cell)), first = Math.min.apply(null, own.map((one) => one.x)), last = Math.max.apply(null, own.map((one) => one.x + one.w));
      const from = at ? first : left, to = at + 1 < pieces.length ? last : right;
      return { cells: cells, from: from, width: to - from };
    });
  }

  // The pieces, and the scale at which they fit: as few as a thumb allows.
  function fitted(shell, drawn, width) {
    const thumbs = reach(drawn.cells), thumb = least(thumbs, "w"), columns = columnsOf(shell);
    let shown = [], scale = 0;
    for (let count = 1; count <= columns && scale * thumb < THUMB; count++) {
      shown = windows(drawn, parted(drawn, columns, Math.ceil(columns / count)), thumbs);
      scale = Math.min(width / Math.max.apply(null, shown.map((one) => one.width)), AMPLE / thumb);
    }
    return { shown: shown, across: scale, thumbs: thumbs };
  }

  // ---- drawing ------------------------------------------------------------------------------------------
  function scaled(box, across, down) { return Object.assign({}, box, { x: box.x * across, w: box.w * across, y: box.y * down, h: box.h * down }); }

  function scaledFace(drawn, across, down) {
    const four = (box) => [box[0] * across, box[1] * down, box[2] * across, box[3] * down];
    const cells = drawn.cells.map((cell) => scaled(cell, across, down)), made = Object.assign({}, drawn, { shell: four(drawn.shell), latchBox: four(drawn.latchBox), cells: cells });
    made.lettering = Math.min(18, drawn.lettering * across);
    return made;
  }

  function pressable(group, cell, thumb, words, chosen, press) {
    const sheet = face.node("rect", { class: "maker-sheet", x: thumb.x, y: thumb.y, width: thumb.w, height: thumb.h, fill: "transparent" });
    group.insertBefore(sheet, group.firstChild);
    group.setAttribute("role", "button");
    group.setAttribute("tabindex", "0");
    group.setAttribute("data-cavity", cell.name);
    group.setAttribute("aria-label", "Cavity " + cell.name + ": " + words);
    if (chosen) face.node("rect", { class: "lb-ring", x: cell.x - 2, y: cell.y - 2, width: cell.w + 4, height: cell.h + 4, rx: "5", fill: "none", stroke: "currentColor", "stroke-width": "3.5" }, group);
    group.addEventListener("click", () => press(cell.name));
    group.addEventListener("keydown", function (event) {
      if (event.key === "Enter" || event.key === " ") { event.preventDefault(); press(cell.name); }
    });
  }

  function cutLine(svg, x, drawn) {
    face.node("path", { class: "maker-cut", d: "M" + x + " " + (drawn.shell[1] - 4) + "v" + (drawn.shell[3] + 8), fill: "none", stroke: "currentColor", "stroke-width": "2", "stroke-dasharray": "7 5" }, svg);
  }

  function sideName(at, count) { return count < 3 ? SIDES[count - 1][at] : "part " + (at + 1) + " of " + count + " from the left"; }

  function piece(given, made, at) {
    const one = made.fit.shown[at], across = made.fit.across, count = made.fit.shown.length, x = one.from * across, wide = one.width * across;
    const top = Math.min(made.drawn.shell[1], made.drawn.latchBox[1]) - RIM, tall = Math.max(made.drawn.shell[1] + made.drawn.shell[3], made.drawn.latchBox[1] + made.drawn.latchBox[3]) + RIM - top;
    const svg = face.node("svg", { class: "lb-drawing lb-plug lb-plug-" + given.view[0], width: wide, height: tall, viewBox: [x, top, wide, tall].join(" "), "font-family": "sans-serif", fill: "currentColor", role: "group" });
    svg.setAttribute("aria-label", given.name + ", " + face.captions[given.view] + ", latch " + made.drawn.latch + ", " + sideName(at, count));
    face.shell(svg, made.drawn, given.view);
    one.cells.forEach(function (cell) {
      const own = scaled(cell, across, made.down), use = given.uses[cell.name] || { kind: "blank", hatch: "", words: "not described" };
      pressable(face.cavity(svg, made.drawn, own, use, given.view), own, scaled(made.fit.thumbs.get(cell), across, made.down), use.words, given.chosen === cell.name, given.press);
    });
    face.latch(svg, made.drawn, [x, x + wide]);
    if (at) cutLine(svg, x + 1, made.drawn);
    if (at + 1 < count) cutLine(svg, x + wide - 1, made.drawn);
    return svg;
  }

  // Put the drawing into `box`, `width` px wide. `given`: {shell, view, name, uses, press, chosen}.
  function fill(box, given, width) {
    const plain = face.faceOf(given.shell, given.view), fit = fitted(given.shell, plain, width), low = least(fit.thumbs, "h"), cut = fit.shown.length > 1;
    const tall = given.shell.rows.length > 2 ? THUMB : EASY; // three rows twice are to stand on one screen
    const down = (cut ? tall : Math.max(EASY, Math.min(ROWS_WHOLE, fit.across * low))) / low, made = { fit: fit, down: down, drawn: scaledFace(plain, fit.across, down) };
    box.textContent = "";
    fit.shown.forEach(function (one, at) {
      if (cut) { const head = document.createElement("p"); head.className = "maker-half"; head.textContent = sideName(at, fit.shown.length); box.appendChild(head); }
      box.appendChild(piece(given, made, at));
    });
  }

  // An element with the drawing, which keeps to the width that it is given.
  function pressed(given, width) {
    const box = document.createElement("div");
    box.className = "maker-pieces";
    let last = width;
    fill(box, given, width);
    new ResizeObserver(function () {
      const now = box.clientWidth;
      if (!now || Math.abs(now - last) < 1) return;
      last = now;
      fill(box, given, now);
    }).observe(box);
    return box;
  }

  window.loombookPressedFace = { pressed: pressed };
})();
