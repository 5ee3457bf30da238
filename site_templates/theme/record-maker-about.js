// What is said of a whole plug, as lines that open: each shows its answer, or that one is due, so that a
// plug stays one screen of a phone. An answer that is one tap opens the next line that is due.
(function () {
  "use strict";
  const form = window.loombookForm, words = window.loombookShapeWords;
  const ELSEWHERE = ["housing", "pins", "empty"], MADE = ["id", "name"], NAMES = { read_from: "The face you counted on" };
  const ui = { open: "", wasDue: false };
  let host = null;

  function load(given) { host = given; }

  function leave() { ui.open = ""; }

  function schemaOf() { return words.schemaAt("vehicle", ["plugs", 0]); }

  function isDue(plug, key) { return schemaOf().required.indexOf(key) >= 0 && plug[key] === undefined; }

  // Keys that a person has to answer, in the order of the schema; the tool makes letter and name.
  function asked() { return schemaOf().order.filter((key) => schemaOf().required.indexOf(key) >= 0 && ELSEWHERE.concat(MADE).indexOf(key) < 0); }

  function due(plug) { return asked().filter((key) => isDue(plug, key)); }

  function nameOf(key) { const text = NAMES[key] || form.word(key); return text[0].toUpperCase() + text.slice(1); }

  function says(value) {
    if (value === undefined) return "";
    if (!Array.isArray(value)) return form.word(value);
    return value.every((one) => typeof one !== "object") ? value.map(form.word).join(", ") : String(value.length);
  }

  // Whether a line was answered by one tap since it was opened: then the next is opened.
  function step(plug) {
    const isWord = ui.open && words.schemaAt("vehicle", ["plugs", 0, ui.open]).enum;
    if (!isWord || !ui.wasDue || plug[ui.open] === undefined) return;
    ui.open = due(plug)[0] || "";
    ui.wasDue = Boolean(ui.open);
  }

  function line(key, plug, fields, head) {
    const part = form.element("details", "maker-part maker-one"), top = form.element("summary"), value = form.element("span");
    function show() {
      value.textContent = head ? head() : says(plug[key]) || "to answer";
      value.className = !head && isDue(plug, key) ? "maker-due" : "";
    }
    part.id = "maker-about-" + key;
    part.setAttribute("name", "maker-about");
    part.open = ui.open === key;
    part.addEventListener("toggle", function () {
      if (part.open && ui.open !== key) { ui.open = key; ui.wasDue = isDue(plug, key); }
      else if (!part.open && ui.open === key) ui.open = "";
    });
    part.addEventListener("input", show);
    top.appendChild(form.element("strong", "", head ? "Letter, name, look-alikes" : nameOf(key)));
    top.appendChild(value);
    part.appendChild(top);
    fields.forEach((one) => part.appendChild(one));
    show();
    return part;
  }

  // The lines of the plug at an index: one for each key that is asked, and one for the rest.
  function lines(plug, index) {
    const at = { kind: "vehicle", record: host.draft().record }, order = schemaOf().order, own = asked(), path = ["plugs", index];
    step(plug);
    const all = own.map((key) => line(key, plug, form.keys(at, path, order.filter((one) => one !== key))));
    const rest = form.keys(at, path, own.concat(ELSEWHERE));
    return all.concat(line("rest", plug, rest, () => [plug.id, plug.name].filter(Boolean).join(", ")));
  }

  // The lines folded, for a plug whose drawing is there.
  function folded(plug, index) {
    const part = form.element("details", "maker-part"), open = due(plug), top = form.element("summary", "", "About plug " + (plug.id || "") + ": place, colours, face, look-alikes ");
    if (open.length) top.appendChild(form.element("span", "maker-due", open.length + " to answer"));
    part.id = "maker-about";
    part.open = Boolean(ui.open);
    part.appendChild(top);
    lines(plug, index).forEach((one) => part.appendChild(one));
    return part;
  }

  // The face that is counted on, asked above the drawing until it is said: the drawing follows it.
  function faceQuestion(plug, index) {
    const box = form.element("div"), row = form.element("div", "maker-choices"), head = form.element("p", "maker-label", "Which face do you count on?");
    head.id = "maker-face-asked";
    row.setAttribute("role", "group");
    row.setAttribute("aria-labelledby", head.id);
    words.schemaAt("vehicle", ["plugs", 0, "read_from"]).enum.forEach(function (face) {
      row.appendChild(form.button(form.word(face), function () { form.put(host.draft().record, ["plugs", index, "read_from"], face); host.again("maker-turn"); host.changed(); }, null, "small"));
    });
    box.appendChild(head);
    box.appendChild(row);
    return box;
  }

  window.loombookAboutPlug = { load: load, leave: leave, lines: lines, folded: folded, faceQuestion: faceQuestion };
})();
