// Plugs: which shell, then cavity by cavity. A shell is chosen from the book or drawn here.
(function () {
  "use strict";
  const form = window.loombookForm, face = window.loombookFace, words = window.loombookShapeWords, about = window.loombookAboutPlug;
  const VIEWS = { wire_side: "mating_side", mating_side: "wire_side" };
  const ui = { plug: -1, cavity: null, count: "", view: "", more: false, housing: false };
  let host = null;

  function load(given) { host = given; }

  function leave() { ui.plug = -1; ui.cavity = null; ui.housing = false; about.leave(); window.loombookPasted.leave(); window.loombookMakerPhotos.leave(); }

  // ---- shells ----------------------------------------------------------------------------------
  // A housing record as the drawing and the rules take it: cavities as text, gaps as null.
  function shellOf(record) {
    const rows = (Array.isArray(record.rows) ? record.rows : []).map((row) => row.map((cell) => cell === "_" ? null : String(cell)));
    const sizes = {};
    (record.sizes || []).forEach((one) => (one.cavities || []).forEach((name) => { sizes[name] = Number(one.blade_mm) || 1; }));
    return { id: record.id, name: record.name || "", rows: rows, row_shift: record.row_shift || [], sizes: sizes, drawn: true,
      blade_mm: Number(record.blade_mm) || 1, blocked: (record.blocked || []).map(String), latch: record.latch || "top",
      keyed_corner: record.keyed_corner || null, seen_from: record.seen_from || "wire_side", mates_with: record.mates_with || [] };
  }

  function isDrawable(shell) { return shell.rows.some((row) => row.some((name) => name !== null)); }

  function shells() {
    const drawn = host.draft().housings.map(shellOf).filter((one) => one.id);
    return new Map(host.housings.concat(drawn).map((one) => [one.id, one]));
  }

  function count(shell) { return shell.rows.reduce((sum, row) => sum + row.filter((name) => name !== null).length, 0); }

  function shapeWords(shell) {
    const rows = shell.rows.map((row) => row.filter((name) => name !== null).length);
    return count(shell) + " cavities, rows of " + rows.join(" + ") + ", latch " + shell.latch;
  }

  function picture(shell) {
    return isDrawable(shell) ? face.draw(shell, shell.seen_from, shell.name || "drawn here", {}) : form.element("p", "", "No cavity is drawn yet.");
  }

  function chooser(plug, at) {
    const box = form.element("div", "maker-shells"), all = Array.from(shells().values()), select = form.element("select");
    const label = form.element("label", "maker-label", "How many cavities can you count?");
    select.id = at.id + "-count";
    label.htmlFor = select.id;
    select.appendChild(new Option("choose: those that fit are shown", ""));
    Array.from(new Set(all.map(count))).sort((a, b) => a - b).forEach((one) => select.appendChild(new Option(one, one)));
    select.value = ui.count;
    select.addEventListener("change", function () { ui.count = select.value; host.again(select.id); });
    box.appendChild(label);
    box.appendChild(select);
    const list = form.element("ul", "maker-shell-list");
    // Only those of one count: all of them would be thirty screens of a phone.
    all.filter((shell) => ui.count && count(shell) === Number(ui.count)).forEach(function (shell) {
      const item = form.element("li"), press = form.button("Take this one", function () {
        plug.housing = shell.id;
        ui.housing = false;
        host.again();
        host.changed();
      });
      press.setAttribute("aria-label", "Take " + shell.name);
      item.appendChild(form.element("p", "maker-card-head", shell.name + (shell.drawn ? " (drawn here)" : "")));
      item.appendChild(form.element("p", "maker-help", shapeWords(shell)));
      const scroll = form.element("div", "maker-scroll");
      scroll.appendChild(picture(shell));
      item.appendChild(scroll);
      item.appendChild(press);
      list.appendChild(item);
    });
    box.appendChild(list);
    return box;
  }

  // ---- drawing a shell ---------------------------------------------------------------------------
  function numbered(rows, columns) {
    return Array.from({ length: rows }, (none, row) => Array.from({ length: columns }, (zero, column) => row * columns + column + 1));
  }

  function freeId(wanted) {
    const all = shells();
    let id = wanted, at = 2;
    while (all.has(id)) id = wanted + "-" + at++;
    return id;
  }

  // Named for its car, so that shells drawn for two cars are never one file.
  function idFor(plug) {
    const car = host.draft().record.id || "drawn-" + host.draft().key;
    return freeId((car.slice(0, 60) + "-plug-" + String(plug.id || "x").toLowerCase()).replace(/-{2,}/g, "-"));
  }

  function drawNew(plug, rows, columns) {
    const total = rows * columns, record = form.skeleton(words.schemaAt("housing", []));
    Object.assign(record, { schema: 1, id: idFor(plug), data: host.draft().record.data, name: total + "-cavity housing",
      seen_from: plug.read_from === "mating_side" ? "mating_side" : "wire_side", rows: numbered(rows, columns), blocked: [] });
    if (record.data === undefined) delete record.data;
    host.draft().housings.push(record);
    plug.housing = record.id;
  }

  function small(id, text, value) {
    const box = form.element("p", "maker-short"), label = form.element("label", "", text), node = form.element("input");
    node.id = id;
    node.inputMode = "numeric";
    node.value = value;
    label.htmlFor = id;
    box.appendChild(label);
    box.appendChild(node);
    return { box: box, node: node };
  }

  function drawer(plug, at) {
    const box = form.element("details", "maker-part"), rows = small(at.id + "-rows", "Rows", "2"), columns = small(at.id + "-columns", "Cavities a row", "8");
    const say = form.element("p", "maker-slip");
    box.appendChild(form.element("summary", "", "Not among them? Draw it"));
    box.appendChild(form.element("p", "maker-help", "Hold the plug as you count: the rows are drawn as you see them. Gaps, big blades, latch and key come next."));
    const press = form.button("Draw this housing", function () {
      const r = Number(rows.node.value), c = Number(columns.node.value);
      if (!(Number.isInteger(r) && Number.isInteger(c) && r >= 1 && r <= 12 && c >= 1 && c <= 60 && r * c <= 199)) {
        say.textContent = "Type whole numbers: 1 to 12 rows of 1 to 60 cavities, 199 in all.";
        return;
      }
      drawNew(plug, r, c);
      host.again();
      host.changed();
    });
    press.id = at.id + "-draw";
    [rows.box, columns.box, press, say].forEach((one) => box.appendChild(one));
    return box;
  }

  // The rows of a drawn shell, one line a row: 1 2 3 _ 4.
  function rowsField(at) {
    const box = form.element("div", "maker-field"), label = form.element("label", "maker-label", "Rows"), node = form.element("textarea");
    box.setAttribute("data-kind", at.kind);
    box.setAttribute("data-path", JSON.stringify(at.path));
    node.id = at.id;
    label.htmlFor = at.id;
    label.appendChild(form.element("span", "maker-due", ""));
    node.rows = 4;
    node.value = (form.get(at.record, at.path) || []).map((row) => row.join(" ")).join("\n");
    const preview = form.element("div", "maker-scroll"), show = function () { preview.textContent = ""; preview.appendChild(picture(shellOf(at.record))); };
    node.addEventListener("input", function () {
      const rows = node.value.split("\n").map((line) => line.trim().split(/[\s,]+/).filter(Boolean).map((cell) => cell === "_" ? "_" : form.name(cell))).filter((row) => row.length);
      form.put(at.record, at.path, rows.length ? rows : undefined);
      show();
      host.changed();
    });
    box.appendChild(label);
    box.appendChild(form.element("p", "maker-help", "As you see them, one line a row, from left to right: 1 2 3 _ 4, where _ is a gap. Type the numbers that are moulded beside the cavities."));
    box.appendChild(node);
    box.appendChild(preview);
    box.appendChild(form.element("p", "maker-slip"));
    show();
    return box;
  }

  function housingFields(plug) {
    const record = host.draft().housings.find((one) => one.id === plug.housing);
    if (!record) return null;
    const box = form.element("details", "maker-part"), head = form.element("summary", "", "The housing you drew: " + record.id);
    box.open = true;
    box.appendChild(head);
    form.keys({ kind: "housing", record: record }, [], ["schema", "id", "replaces"]).forEach((one) => box.appendChild(one));
    box.appendChild(form.button("Throw this drawing away", function () {
      host.draft().housings = host.draft().housings.filter((one) => one !== record);
      delete plug.housing;
      host.again();
      host.changed();
    }, null, "small"));
    return box;
  }

  // ---- one plug ----------------------------------------------------------------------------------
  function pinAt(plug, cavity) { return (plug.pins || []).findIndex((pin) => String(pin.cavity) === cavity); }

  function isEmpty(plug, cavity) { return (plug.empty || []).some((one) => String(one) === cavity); }

  function wireWords(wire) { return wire && wire.base ? wire.base + (wire.stripe ? "/" + wire.stripe : "") : ""; }

  function pinWords(pin) {
    const parts = [host.names.functions[pin.function] || "not said yet", pin.channel && pin.channel.replace(/-/g, " "), pin.leg];
    return parts.filter(Boolean).join(", ");
  }

  function usesOf(plug, shell) {
    const uses = {};
    shell.blocked.forEach((name) => { uses[name] = { kind: "blocked", hatch: "", words: "moulded shut" }; });
    (plug.empty || []).forEach((name) => { uses[name] = { kind: "empty", hatch: "", words: "empty" }; });
    (plug.pins || []).forEach(function (pin) {
      const kind = host.kinds[pin.function] || "other";
      uses[pin.cavity] = { kind: kind, hatch: host.hatch[kind], words: pinWords(pin) + (pin.wire ? ", wire " + wireWords(pin.wire) : "") };
    });
    return uses;
  }

  function written(cavity) { return /^[0-9]+$/.test(cavity) ? Number(cavity) : cavity; }

  // A cavity that was only opened is not in the record.
  function dropBare(plug) {
    if (plug.pins) plug.pins = plug.pins.filter((pin) => Object.keys(pin).length > 1);
  }

  function choose(plug, cavity) {
    dropBare(plug);
    ui.cavity = cavity;
    ui.more = false;
    if (pinAt(plug, cavity) < 0 && !isEmpty(plug, cavity)) plug.pins.push({ cavity: written(cavity) });
    host.again("maker-pin");
    host.changed(true);
  }

  function dropPin(plug, cavity) {
    const at = pinAt(plug, cavity);
    if (at >= 0) plug.pins.splice(at, 1);
  }

  function viewOf(plug, shell) {
    return ui.view || (VIEWS[plug.read_from] ? plug.read_from : shell.seen_from);
  }

  function faceBox(plug, shell, index) {
    const box = form.element("div", "maker-face"), view = viewOf(plug, shell), name = "plug " + (plug.id || "?");
    const drawing = window.loombookPressedFace.pressed({ shell: shell, view: view, name: name, uses: usesOf(plug, shell), press: (cavity) => choose(plug, cavity), chosen: ui.cavity },
      document.getElementById("maker-fields").clientWidth);
    if (plug.read_from === undefined) box.appendChild(about.faceQuestion(plug, index));
    box.appendChild(form.element("p", "maker-label", "Plug " + (plug.id || "?") + ", " + face.captions[view]));
    box.appendChild(drawing);
    return box;
  }

  // What stands above the drawing: the way back, and the other face.
  function headOf(plug, shell) {
    const row = form.element("div", "maker-heads"), all = form.button("All plugs", function () { dropBare(plug); leave(); host.again(); host.changed(true); });
    all.id = "maker-all-plugs";
    row.appendChild(all);
    if (!shell || !isDrawable(shell)) return row;
    const view = viewOf(plug, shell), turn = form.button("Show the other face", function () { ui.view = VIEWS[view]; host.again(turn.id); });
    turn.id = "maker-turn";
    row.appendChild(turn);
    return row;
  }

  function pinTable(plug) {
    const table = form.element("table", "maker-pins"), head = form.element("tr"), body = form.element("tbody"), top = form.element("thead");
    ["Cavity", "Does", "Wire", "Fuse", "Readings"].forEach(function (text) { const cell = form.element("th", "", text); cell.scope = "col"; head.appendChild(cell); });
    top.appendChild(head);
    table.appendChild(top);
    const line = (cavity, cells) => {
      const row = form.element("tr"), first = form.element("th"), press = form.button(String(cavity), () => choose(plug, String(cavity)), String(cavity) === ui.cavity, "small");
      press.setAttribute("aria-label", "Cavity " + cavity + ": " + cells[0]);
      first.scope = "row";
      first.appendChild(press);
      row.appendChild(first);
      cells.forEach((text) => row.appendChild(form.element("td", "", text)));
      body.appendChild(row);
    };
    (plug.pins || []).forEach((pin) => line(pin.cavity, [pinWords(pin), wireWords(pin.wire), pin.fuse && pin.fuse.place ? pin.fuse.place : "", String((pin.readings || []).length)]));
    (plug.empty || []).forEach((cavity) => line(cavity, ["empty", "", "", ""]));
    table.appendChild(body);
    return table;
  }

  // A cavity that was said to be empty is so no longer.
  function wiredButton(plug, cavity) {
    return form.button("It has a wire", function () {
      dropEmpty(plug, cavity);
      plug.pins.push({ cavity: written(cavity) });
      host.again("maker-pin");
      host.changed();
    });
  }

  function dropEmpty(plug, cavity) {
    plug.empty = (plug.empty || []).filter((one) => String(one) !== cavity);
    if (!plug.empty.length) delete plug.empty;
  }

  // Put what was said of a pin into it; what was measured of it stays.
  function putSaid(pin, values) {
    if (values.function) ["channel", "leg"].forEach((key) => { delete pin[key]; });
    const wire = values.wire ? Object.assign({}, pin.wire, { stripe: undefined }, values.wire) : pin.wire;
    const only = values.only_if ? { only_if: Object.assign({}, pin.only_if, values.only_if) } : {};
    Object.assign(pin, values, only, wire ? { wire: JSON.parse(JSON.stringify(wire)) } : {});
  }

  function putEmpty(plug, cavity) {
    dropPin(plug, cavity);
    if (!isEmpty(plug, cavity)) plug.empty = (plug.empty || []).concat(written(cavity));
  }

  // What a line or a chip does to a pin; then the drawing is there for the next cavity.
  function saidOf(plug, at) {
    const pin = plug.pins[at], cavity = ui.cavity;
    function shut() { ui.cavity = null; host.again("maker-turn"); showFace(); host.changed(); }
    return { names: host.names.functions, meant: host.draft().meant || {},
      take: function (values) { putSaid(pin, values); shut(); },
      empty: function () { putEmpty(plug, cavity); shut(); } };
  }

  // ---- a pasted table ------------------------------------------------------------------------------
  // The field for it; `here` is the plug of lines that name none, "" when each has to.
  function pasteBox(here) {
    const draft = host.draft(), all = draft.record.plugs || [], known = shells(), names = host.names.functions;
    const meant = draft.meant = draft.meant || {}, plugOf = (id) => all.find((plug) => plug.id === id);
    const told = (values) => window.loombookPinSaid.told(values, names);
    return window.loombookPasted.box({ here: here, meant: meant, text: draft.pasted || "", names: names, told: told,
      open: Boolean(here) && known.has((plugOf(here) || {}).housing) && !(plugOf(here).pins || []).length,
      plugs: all.filter((plug) => plug.id).map((plug) => ({ id: plug.id, shell: known.get(plug.housing) || null, face: plug.read_from || null, stands: isBegun(plug) })),
      setFace: function (id, face) { plugOf(id).read_from = face; host.again("maker-paste"); host.changed(); },
      keep: function (text) { draft.pasted = text; host.changed(); },
      remember: function (word, meaning) { meant[word] = meaning; host.changed(); },
      forget: function (word) { delete meant[word]; host.changed(); },
      standing: (id, cavity) => standing(plugOf(id), String(cavity), told),
      take: function (lines, left) {
        lines.forEach((line) => takeLine(plugOf(line.said.plug), String(line.said.cavity), line.values));
        draft.pasted = left;
        host.again("maker-paste");
        host.changed();
      } });
  }

  // Whether anything was said of a cavity: then a table of the other face is turned to this plug's.
  function isBegun(plug) { return (plug.pins || []).some((pin) => Object.keys(pin).length > 1) || Boolean((plug.empty || []).length); }

  // What stands of a cavity already, in words; "" for nothing.
  function standing(plug, cavity, told) {
    const pin = plug.pins && plug.pins[pinAt(plug, cavity)];
    return isEmpty(plug, cavity) ? told(null) : pin && (pin.function || pin.wire) ? told(pin) : "";
  }

  function takeLine(plug, cavity, values) {
    if (!values) { putEmpty(plug, cavity); return; }
    dropEmpty(plug, cavity);
    plug.pins = plug.pins || [];
    if (pinAt(plug, cavity) < 0) plug.pins.push({ cavity: written(cavity) });
    const pin = plug.pins[pinAt(plug, cavity)];
    delete pin.wire;
    if (pin.only_if) delete pin.only_if.trims;
    if (pin.only_if && !Object.keys(pin.only_if).length) delete pin.only_if;
    putSaid(pin, values);
  }

  // The next cavity is pressed where the last one was: the drawing is brought back under the thumb.
  function showFace() {
    const drawing = document.querySelector(".maker-face");
    if (drawing) drawing.scrollIntoView({ block: "nearest" });
  }

  function closeCavity(plug) {
    dropBare(plug);
    ui.cavity = null;
    host.again("maker-turn");
    showFace();
    host.changed(true);
  }

  function pinBox(plug, index) {
    const box = form.element("section", "maker-pin"), at = pinAt(plug, ui.cavity), head = form.element("h3", "", "Plug " + (plug.id || "?") + ", cavity " + ui.cavity + standsOf(plug, at));
    head.id = "maker-pin";
    head.tabIndex = -1;
    box.appendChild(head);
    if (at >= 0) box.appendChild(window.loombookPinSaid.box(saidOf(plug, at)));
    box.appendChild(otherwise(plug));
    if (at >= 0) box.appendChild(pinFields(index, at, Object.keys(plug.pins[at]).length > 1));
    const done = form.button("Done with this cavity", () => closeCavity(plug), null, "strong");
    done.id = "maker-pin-done";
    box.appendChild(done);
    return box;
  }

  // What stands of the cavity, behind its name: a wrong tap is seen before a word is typed.
  function standsOf(plug, at) {
    const said = at < 0 ? "empty" : standing(plug, ui.cavity, (pin) => window.loombookPinSaid.told(pin, host.names.functions));
    return said ? ": " + said : "";
  }

  // What takes back what stands of a cavity.
  function otherwise(plug) {
    const row = form.element("div", "maker-choices");
    if (isEmpty(plug, ui.cavity)) row.appendChild(wiredButton(plug, ui.cavity));
    row.appendChild(form.button("Say nothing of it", function () {
      dropPin(plug, ui.cavity);
      dropEmpty(plug, ui.cavity);
      ui.cavity = null;
      host.again("maker-turn");
      showFace();
      host.changed();
    }));
    return row;
  }

  // Every key of a pin; folded while nothing is said of it, so that its line and chips fill the screen.
  function pinFields(index, at, isSaid) {
    const part = form.element("details", "maker-part");
    part.id = "maker-pin-more";
    part.open = isSaid || ui.more;
    part.addEventListener("toggle", () => { ui.more = part.open; });
    part.appendChild(form.element("summary", "", "Readings, size, fuse, claims and the rest of this cavity"));
    form.keys({ kind: "vehicle", record: host.draft().record }, ["plugs", index, "pins", at], ["cavity"]).forEach((one) => part.appendChild(one));
    return part;
  }

  // The drawing first, and all else of the plug as lines that open below it; without a housing its lines.
  function plugBox(plug, index) {
    const box = form.element("div", "maker-plug"), at = { id: "maker-plug-" + index }, shell = shells().get(plug.housing);
    const more = ui.cavity === null ? [pasteBox(plug.id || ""), window.loombookMakerPhotos.plugPart(plug)] : [];
    const parts = shell ? [deskOf(plug, index, shell)].concat(more, about.folded(plug, index), shellPart(plug, index, at, shell), housingFields(plug) || [])
      : [shellPart(plug, index, at, shell)].concat(about.lines(plug, index), (plug.pins || []).length ? [deskOf(plug, index)] : [], more);
    box.classList.toggle("maker-one-pin", ui.cavity !== null);
    [headOf(plug, shell)].concat(parts, form.element("p", "maker-slip")).forEach((part) => box.appendChild(part));
    box.setAttribute("data-kind", "vehicle");
    box.setAttribute("data-path", JSON.stringify(["plugs", index]));
    return box;
  }

  function deskOf(plug, index, shell) {
    const desk = form.element("div", "maker-desk"), left = form.element("div", "maker-left");
    if (shell && isDrawable(shell)) left.appendChild(faceBox(plug, shell, index));
    if ((plug.pins || []).length || (plug.empty || []).length) left.appendChild(pinTable(plug));
    desk.appendChild(left);
    if (ui.cavity !== null) desk.appendChild(pinBox(plug, index));
    return desk;
  }

  function shellPart(plug, index, at, shell) {
    const part = form.element("details", "maker-part"), head = form.element("summary", "", "Its housing");
    head.appendChild(form.element("span", shell ? "" : "maker-due", shell ? ": " + (shell.name || shell.id) : " to choose or draw"));
    part.id = "maker-housing";
    part.open = !shell || ui.housing;
    part.addEventListener("toggle", () => { ui.housing = part.open; });
    part.appendChild(head);
    part.setAttribute("data-kind", "vehicle"); // that it is due, the line itself says
    part.setAttribute("data-path", JSON.stringify(["plugs", index, "housing"]));
    part.appendChild(chooser(plug, at));
    part.appendChild(drawer(plug, at));
    return part;
  }

  // ---- all plugs ---------------------------------------------------------------------------------
  function nextLetter(plugs) { return Array.from("ABCDEFGHIJKLMNOPQRSTUVWXYZ").find((one) => !plugs.some((plug) => plug.id === one)); }

  function field(at) {
    const record = at.record, all = Array.isArray(record.plugs) ? record.plugs : [];
    if (all[ui.plug]) return plugBox(all[ui.plug], ui.plug);
    const box = form.element("div", "maker-field"), list = form.element("div", "maker-list"), name = form.element("p", "maker-label", "Every plug that carries a wire of the sound");
    name.appendChild(form.element("span", "maker-due", ""));
    box.appendChild(name);
    box.setAttribute("data-kind", "vehicle");
    box.setAttribute("data-path", '["plugs"]');
    all.forEach(function (plug, index) {
      const card = form.element("div", "maker-card"), pins = (plug.pins || []).length, head = form.element("p", "maker-card-head", "Plug " + (plug.id || "?") + ": " + (plug.name || "no name") + ", " + pins + (pins === 1 ? " wire" : " wires"));
      const open = form.button("Open", function () { ui.plug = index; ui.cavity = null; ui.view = ""; ui.count = ""; host.again("maker-all-plugs"); host.toTop(); });
      const gone = form.button("Remove", function () { form.put(record, ["plugs", index], undefined); if (!record.plugs.length) delete record.plugs; host.again(); host.changed(); }, null, "small");
      open.setAttribute("aria-label", "Open plug " + (plug.id || index + 1));
      gone.setAttribute("aria-label", "Remove plug " + (plug.id || index + 1));
      head.appendChild(open);
      head.appendChild(gone);
      card.appendChild(head);
      list.appendChild(card);
    });
    const add = form.button("Add a plug", function () {
      const id = nextLetter(all);
      record.plugs = all.concat(Object.assign(id ? { id: id, name: "plug " + id } : {}, { pins: [] }));
      ui.plug = record.plugs.length - 1;
      ui.cavity = null;
      ui.view = "";
      ui.count = "";
      host.again("maker-all-plugs");
      host.toTop();
      host.changed();
    }, null, "strong");
    add.id = "maker-add-plug";
    [list, add].concat(all.some((plug) => plug.id) ? pasteBox("") : [], form.element("p", "maker-slip")).forEach((one) => box.appendChild(one));
    return box;
  }

  // Go to what a path names, for a link of a finding.
  function open(path) {
    const plug = form.get(host.draft().record, path.slice(0, 2));
    ui.plug = typeof path[1] === "number" ? path[1] : -1;
    ui.view = "";
    ui.cavity = null;
    ui.more = true;
    if (plug && path[2] === "pins" && typeof path[3] === "number" && plug.pins[path[3]]) ui.cavity = String(plug.pins[path[3]].cavity);
  }

  // Take out of a draft what was only opened: a page may be left at any moment.
  function tidy(draft) { (draft.record.plugs || []).forEach(dropBare); }

  window.loombookPlugs = { load: load, tidy: tidy, field: field, rowsField: rowsField, shells: shells, leave: leave, open: open };
})();
