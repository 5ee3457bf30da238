// The readings of one pin: typed in one line or by fields, with the session they belong to.
(function () {
  "use strict";
  const form = window.loombookForm, parse = window.loombookReading;
  const MOVES_BATTERY = ["crank", "engine", "auto_restart"], VOLTS = ["dc_v", "ac_v"];
  const now = { session: "", battery: "", open: "" };
  let host = null;

  function load(given) { host = given; }

  function sessionsOf(record) { return (record.sessions || []).map((one) => one.id).filter(Boolean); }

  function textOf(r, names) {
    const on = r.load && r.load !== "none" ? ", " + form.word(r.load) : "", to = r.against !== undefined ? ", against " + form.word(r.against) : "";
    const battery = r.battery_v !== undefined ? ", battery " + r.battery_v + " V" : "", minutes = r.minutes !== undefined ? " " + r.minutes + " min" : "";
    const value = r.value === undefined ? "no figure" : r.value + (r.value === "open" ? "" : " " + (names.units[r.quantity] || ""));
    return (names.states[r.state] || r.state || "no state") + minutes + on + ": " + value + to + battery + " (" + (r.session || "no visit") + ")";
  }

  function mateOf(record, path) {
    const pins = form.get(record, path.slice(0, -3).concat("pins")), mine = form.get(record, path.slice(0, -1));
    if (!Array.isArray(pins) || !mine || !mine.channel) return undefined;
    const mate = pins.find((pin) => pin !== mine && pin.channel === mine.channel && pin.function === mine.function && pin.leg !== mine.leg);
    return mate && mate.cavity;
  }

  // The reading of a line, with the session and, for volts, the battery typed beside it.
  function readingOf(text, record, path) {
    const reading = parse.readReading(text, mateOf(record, path)), battery = Number(now.battery.replace(",", "."));
    if (VOLTS.indexOf(reading.quantity) >= 0 && reading.battery_v === undefined && now.battery.trim() && battery >= 0) reading.battery_v = battery;
    return Object.assign({ session: now.session }, reading);
  }

  function labelled(id, text, node) {
    const box = form.element("p", "maker-short"), label = form.element("label", "", text);
    label.htmlFor = id;
    node.id = id;
    box.appendChild(label);
    box.appendChild(node);
    return box;
  }

  function sessionSelect(at) {
    const select = form.element("select"), ids = sessionsOf(at.record);
    if (ids.indexOf(now.session) < 0) now.session = ids[ids.length - 1] || "";
    ids.forEach((id) => select.appendChild(new Option(id, id)));
    if (!ids.length) select.appendChild(new Option("none yet: add one under Measuring", ""));
    select.value = now.session;
    select.addEventListener("change", () => { now.session = select.value; });
    return labelled(at.id + "-session", "Visit", select);
  }

  function batteryField(at) {
    const node = form.element("input");
    node.inputMode = "decimal";
    node.autocomplete = "off";
    node.value = now.battery;
    node.placeholder = "what the meter shows";
    node.addEventListener("input", () => { now.battery = node.value; });
    return labelled(at.id + "-battery", "Battery volts now, for lines that do not say them", node);
  }

  function add(at, text, say) {
    try {
      const list = form.get(at.record, at.path) || [], reading = readingOf(text, at.record, at.path);
      if (!now.session) throw Object.assign(new Error("no visit"), { help: "add one under Measuring: who measured, when, on which car" });
      form.put(at.record, at.path, list.concat(reading));
      if (MOVES_BATTERY.indexOf(reading.state) >= 0) now.battery = "";
      host.again(at.id + "-line");
      host.changed();
    } catch (slip) {
      if (!slip.help) throw slip;
      say.textContent = slip.message + ": " + slip.help + ".";
    }
  }

  function lineForm(at) {
    const made = form.element("form", "maker-line"), node = form.element("input"), say = form.element("p", "maker-slip");
    node.autocomplete = "off";
    node.autocapitalize = "none";
    node.spellcheck = false;
    node.placeholder = "asleep VALUE V battery VOLTS minutes MINUTES";
    say.setAttribute("role", "alert");
    const press = form.element("button", "button strong", "Add this reading");
    press.type = "submit";
    made.appendChild(labelled(at.id + "-line", "State, figure, then battery, minutes, load, against", node));
    made.appendChild(press);
    made.appendChild(say);
    made.addEventListener("submit", function (event) { event.preventDefault(); add(at, node.value, say); });
    return made;
  }

  function card(at, index) {
    const path = at.path.concat(index), box = form.element("div", "maker-card"), key = JSON.stringify(path), names = host.names;
    box.setAttribute("data-kind", at.kind);
    box.setAttribute("data-path", key);
    const said = textOf(form.get(at.record, path), names), head = form.element("p", "maker-card-head", said);
    const open = form.button(now.open === key ? "Close" : "Change", function () { now.open = now.open === key ? "" : key; host.again(); }, null, "small");
    const gone = form.button("Remove", function () { now.open = ""; form.put(at.record, path, undefined); host.again(at.id + "-line"); host.changed(); }, null, "small");
    open.setAttribute("aria-label", open.textContent + ": " + said);
    gone.setAttribute("aria-label", "Remove: " + said);
    head.appendChild(open);
    head.appendChild(gone);
    box.appendChild(head);
    if (now.open === key) form.keys(at, path).forEach((one) => box.appendChild(one));
    box.appendChild(form.element("p", "maker-slip"));
    return box;
  }

  function field(at) {
    const box = form.element("div", "maker-field maker-readings"), list = form.get(at.record, at.path) || [];
    box.setAttribute("data-kind", at.kind);
    box.setAttribute("data-path", JSON.stringify(at.path));
    const name = form.element("p", "maker-label", "Readings");
    name.appendChild(form.element("small", "", " may be left out"));
    box.appendChild(name);
    list.forEach((reading, index) => box.appendChild(card(at, index)));
    [sessionSelect(at), batteryField(at), lineForm(at)].forEach((one) => box.appendChild(one));
    const byFields = form.button("Add by fields instead", function () {
      now.open = JSON.stringify(at.path.concat(list.length));
      form.put(at.record, at.path, list.concat(now.session ? { session: now.session } : {}));
      host.again();
      host.changed();
    });
    byFields.id = at.id + "-fields";
    box.appendChild(byFields);
    box.appendChild(form.element("p", "maker-slip"));
    return box;
  }

  window.loombookReadings = { load: load, field: field };
})();
