// The columns of a pasted table, said by its heading or judged by what its cells read as, and the face that
// its headings name: compared with that of the plug before a line is taken. The steps are those of
// builder/editing/interview (columns, face_asked) and builder/model/said/faces; a test gives both the same.
(function () {
  "use strict";
  const said = window.loombookSaidWords, UNKNOWN = "unknown";
  let table = null, given = null, cavityCell = null, sizeCell = null, splits = null;

  function load(lines) {
    given = lines;
    table = lines.columns;
    cavityCell = new RegExp("^(?:" + table.cavity_cell + ")", "i");
    sizeCell = new RegExp("^(?:" + table.size_cell + ")", "i");
    splits = new Map(table.between.map((one) => [one, one.length === 1 ? one : new RegExp(one)]));
  }

  // ---- faces that a text names (said/faces.py) ------------------------------------------------------
  function facesIn(text) {
    const found = [];
    let plain = " " + (text.toLowerCase().replace(/_/g, " ").replace(/’/g, "'").match(/[a-z0-9']+/g) || []).join(" ") + " ";
    given.faces.forEach(function (pair) {
      const at = plain.indexOf(" " + pair[0] + " ");
      if (at < 0) return;
      const front = plain.slice(0, at), behind = plain.slice(at + pair[0].length + 2);
      if (!front.endsWith(" " + given.denying)) found.push({ written: pair[0], faces: pair[1] });
      plain = front + " | " + behind;
    });
    return found;
  }

  // ---- a heading (columns.py) -------------------------------------------------------------------------
  function cellsOf(line, between) { return line.split(splits.get(between)).map((cell) => cell.trim()); }

  function plainHeading(text) {
    const words = text.toLowerCase().replace(/²/g, "2").replace(/_/g, " ").match(/[\p{L}\p{N}%+.]+/gu) || [];
    return words.map((word) => table.spelt[word] || word).join(" ").replace(/^[. ]+|[. ]+$/g, "");
  }

  function bare(cell, faces) {
    return faces.reduce((text, face) => text.split(face.written).join(" "), plainHeading(cell)).split(/\s+/).filter(Boolean).join(" ");
  }

  function isName(text) { return Object.prototype.hasOwnProperty.call(table.headings, text); }

  function headed(line, between) {
    const cells = cellsOf(line, between), named = cells.map(facesIn), texts = cells.map((cell, at) => bare(cell, named[at]));
    let kinds = texts.map((text) => isName(text) ? table.headings[text] : "");
    if (kinds.indexOf("cavity") < 0) kinds = kinds.map((kind, at) => table.weak.indexOf(texts[at]) >= 0 ? "cavity" : kind);
    const known = texts.filter((text, at) => isName(text) || kinds[at]).length;
    if (known < Math.max(2, cells.length * (table.least_known[between] || 0))) return null;
    return { between: between, kinds: kinds, faces: named.map((all) => all[0] || null), text: line };
  }

  function headingOf(line) { return table.between.reduce((found, between) => found || headed(line, between), null); }

  function told(columns) { return columns.kinds.map((kind) => table.names[kind]).join(" · "); }

  function places(columns) { return columns.kinds.map((kind, at) => kind === "cavity" ? at : -1).filter((at) => at >= 0); }

  function placeColumn(columns, face) {
    let found = places(columns);
    if (found.length > 1) found = found.filter((at) => columns.faces[at] && columns.faces[at].faces.length === 1 && columns.faces[at].faces[0] === face);
    return found.length === 1 ? found[0] : -1;
  }

  // `counted`: the faces of the plugs that the heading may be of.
  function facesOf(columns, counted) {
    const all = places(columns), named = all.map((at) => columns.faces[at]).filter(Boolean);
    return all.length > 1 && counted.every((face) => given.sides.indexOf(face) >= 0) ? [] : named;
  }

  function notRead(columns) { return cellsOf(columns.text, columns.between).filter((cell, at) => cell && !columns.kinds[at]); }

  // ---- a row in the order of a line ---------------------------------------------------------------------
  function sized(kind, cell) { return /^[0-9]+(?:[.,/][0-9]+)?$/.test(cell) ? cell + (kind === "awg" ? " awg" : " mm2") : cell; }

  // The line that a row is; null when it has no such columns, "" where its cavity's is open.
  function inOrder(line, columns, faceOf, here) {
    const cells = cellsOf(line, columns.between), filled = cells.map((cell, at) => ({ kind: columns.kinds[at], cell: cell })).filter((one) => one.cell && one.kind !== undefined);
    const plug = (filled.find((one) => one.kind === "plug") || { cell: "" }).cell, at = placeColumn(columns, faceOf[plug.toUpperCase() || here]);
    if (at < 0 && places(columns).length > 1) return "";
    if (cells.length < 2 || cells.length > columns.kinds.length || at < 0 || at >= cells.length) return null;
    let parts = [];
    table.words.forEach((kind) => { parts = parts.concat(filled.filter((one) => one.kind === kind).map((one) => one.cell)); });
    parts = parts.concat(filled.filter((one) => one.kind === "size" || one.kind === "awg").map((one) => sized(one.kind, one.cell)));
    parts = parts.concat(filled.filter((one) => one.kind === "trims").map((one) => "only " + one.cell));
    return [plug, cells[at], ";"].concat(parts).join(" ").trim();
  }

  // ---- nobody said it -------------------------------------------------------------------------------------
  // The value that stands most often, the first of several; {one, often}.
  function most(all) {
    const counts = new Map();
    all.forEach((one) => counts.set(one, (counts.get(one) || 0) + 1));
    return Array.from(counts).reduce((best, pair) => pair[1] > best.often ? { one: pair[0], often: pair[1] } : best, { one: "", often: 0 });
  }

  function cellKind(cell, plugs) {
    const place = cavityCell.exec(cell);
    if (place && (!place[1] || plugs.indexOf(place[1].toUpperCase()) >= 0)) return "cavity";
    if (plugs.length > 1 && plugs.indexOf(cell.toUpperCase()) >= 0) return "plug";
    if (sizeCell.test(cell)) return "size";
    const found = said.pinWords(cell), kinds = found.phrases.map((one) => one.kind), has = (kind) => kinds.indexOf(kind) >= 0;
    if (found.left.length || !kinds.length) return "";
    return has("function") || has("channel") ? "function" : has("leg") ? "leg" : "colours";
  }

  function judgedKind(cells, plugs) {
    const filled = cells.filter(Boolean), best = most(filled.map((cell) => cellKind(cell, plugs)));
    if (!filled.length || best.often <= table.mostly * filled.length) return "";
    return best.one === "cavity" && new Set(filled).size < table.distinct * filled.length ? "" : best.one;
  }

  function placesOf(rows, kinds) {
    const found = kinds.map((kind, at) => kind === "cavity" ? at : -1).filter((at) => at >= 0);
    const named = found.filter((at) => rows.some((row) => (cavityCell.exec(row[at]) || [])[1]));
    return named.length ? named : found;
  }

  function judged(lines, plugs) {
    for (const between of table.between) {
      const rows = lines.map((line) => cellsOf(line, between)), best = most(rows.map((row) => row.length));
      if (best.one < 2 || best.often <= table.mostly * rows.length) continue;
      const whole = rows.filter((row) => row.length === best.one), kinds = whole[0].map((cell, at) => judgedKind(whole.map((row) => row[at]), plugs)), found = placesOf(whole, kinds);
      if (found.length === 1) return { between: between, kinds: kinds.map((kind, at) => kind === "cavity" ? (at === found[0] ? "cavity" : "") : kind || "function"), faces: [], text: "" };
    }
    return null;
  }

  // ---- the face of lines and of their plug (face_asked.py) ----------------------------------------------------
  function own(plug) { return plug.face && plug.face !== UNKNOWN ? plug.face : null; }

  function keyOf(plug, line) { return plug.id + " " + line.faced.written; }

  function agrees(plug, line) { return line.faced.faces.length === 1 && line.faced.faces[0] === own(plug); }

  // [{plug, written, choices, key}]: what has to be settled, each once.
  function facesAsked(lines, plugs) {
    const found = new Map();
    lines.forEach((line) => plugs.forEach(function (plug) {
      if (!line.faced || plug.id !== (line.said ? line.said.plug : line.here) || agrees(plug, line) || found.has(keyOf(plug, line))) return;
      const choices = Array.from(new Set(line.faced.faces.concat(own(plug) ? [own(plug)] : [])));
      found.set(keyOf(plug, line), { plug: plug.id, written: line.faced.written, choices: choices, key: keyOf(plug, line) });
    }));
    return Array.from(found.values());
  }

  function isOtherFace(face, other, shell) {
    const one = face === "moulded" && shell ? shell.seen_from : face;
    return given.sides.indexOf(one) >= 0 && given.sides.indexOf(other) >= 0 && one !== other;
  }

  // "as_is", "set" (the plug gets that face) or "turn" (the lines are turned to the plug's).
  function wayOf(plug, face) {
    if (own(plug) === face) return "as_is";
    if (!own(plug) || !plug.stands) return "set";
    return isOtherFace(own(plug), face, plug.shell) ? "turn" : "as_is";
  }

  function refused(line, why) { return Object.assign({}, line, { said: null, why: why }); }

  function turned(line, plug) {
    if (!plug.shell || !plug.shell.mirror) return refused(line, "it cannot be turned: what the housing of plug " + plug.id + " looks like from the other face is not known here");
    const image = plug.shell.mirror[String(line.said.cavity)];
    if (image === undefined) return refused(line, "cavity " + line.said.cavity + " has no counterpart seen from the other face");
    return Object.assign({}, line, { from: line.said.cavity, said: Object.assign({}, line.said, { cavity: /^[0-9]+$/.test(image) ? Number(image) : image }) });
  }

  // A line as it is taken; without a pin while its face is open. `answers`: the faces chosen, by key.
  function settled(line, plugs, answers) {
    const plug = line.said && plugs.find((each) => each.id === line.said.plug);
    if (!plug || !line.faced) return line;
    const face = answers[keyOf(plug, line)], isOpen = face === undefined || wayOf(plug, face) === "set"; // the plug has not got it yet
    if (isOpen) return agrees(plug, line) ? line : Object.assign(refused(line, "the face that it was counted on is open"), { waits: true });
    return wayOf(plug, face) === "turn" ? turned(line, plug) : line;
  }

  window.loombookColumns = { load: load, facesIn: facesIn, headingOf: headingOf, facesOf: facesOf, notRead: notRead, inOrder: inOrder, judged: judged, told: told,
    facesAsked: facesAsked, wayOf: wayOf, settled: settled, faceName: (face) => given.face_names[face] };
})();
