// One line as an installer types it, "asleep 0.03 V battery 12.6 minutes 65", to a reading of the
// record. The grammar is that of `loombook identify` (builder/parsing/reading_text); so are the words.
(function () {
  "use strict";
  const own = window.loombookShape.own, words = window.loombookShapeWords;
  const WORD = /[^\s,;=:]+(?:[,:][^\s,;=:]+)*/g, NUMBER = /^([-+−–]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))([^0-9.,]*)$/;
  const CAVITY = /^(?:[a-z][a-z0-9]{0,3}\.)?(?:[1-9][0-9]{0,2}|[a-z][0-9]{0,2})$/;
  const KEYS = ["battery", "minutes", "load", "against"];
  const EXAMPLES = { battery: "battery and its volts", minutes: "minutes and how many", load: "load lamp", against: "against body" };
  let table = null;

  function load(given) { table = given; }

  function slip(message, help) {
    const error = new Error(message);
    error.help = help;
    return error;
  }

  function isFigure(word) { return table.open.indexOf(word) >= 0 || NUMBER.test(word); }

  function figureAt(list) {
    const places = list.map((word, index) => index).filter((index) => isFigure(list[index]));
    const behind = places.filter((at) => isState(plain(list.slice(0, at).join(" "))));
    return behind.length ? behind[behind.length - 1] : places.length ? places[0] : list.length;
  }

  function isState(text) { return table.states.indexOf(text) >= 0 || own(table.state_spellings, text); }

  function plain(text) { return text.trim().replace(/[\s_-]+/g, "_"); }

  function number(text) { return Number(text.replace(",", ".").replace(/[−–]/, "-")); }

  function stateOf(said) {
    const text = plain(said.join(" "));
    if (!text) throw slip("the state of the car is missing", "begin with the state: " + table.example);
    if (table.states.indexOf(text) >= 0) return text;
    if (own(table.state_spellings, text)) return table.state_spellings[text];
    if (own(table.alike_states, text)) throw slip("“" + said.join(" ") + "” could be " + table.alike_states[text].join(" or "), "type " + table.alike_states[text].join(" or "));
    const near = words.nearest(text, table.states.concat(Object.keys(table.state_spellings)));
    throw slip("“" + said.join(" ") + "” is no state of the car",
      near ? "type " + (table.state_spellings[near] || near) : "type one of: " + table.states.join(", "));
  }

  function figureOf(list, state) {
    let rest = list.slice(1);
    if (table.open.indexOf(list[0]) >= 0) {
      if (rest.length && own(table.units, rest[0]) && table.units[rest[0]][0] === "ohm") rest = rest.slice(1);
      return { value: "open", quantity: "ohm", rest: rest };
    }
    const found = NUMBER.exec(list[0]);
    let unit = found[2];
    while (rest.length && own(table.units, unit + rest[0])) { unit += rest[0]; rest = rest.slice(1); }
    if (unit === "") {
      if (table.dead_states.indexOf(state) >= 0) throw slip("“" + list[0] + "” of what?", "type " + list[0] + " ohm or " + list[0] + " V");
      return { value: number(found[1]), quantity: "dc_v", rest: rest };
    }
    if (!own(table.units, unit)) throw slip("“" + list[0] + "”: the unit is not known", "type V, V ac, ohm, Hz, mA or %");
    return { value: number(found[1]) * table.units[unit][1], quantity: table.units[unit][0], rest: rest };
  }

  function extrasOf(list) {
    const found = {};
    let at = 0;
    while (at < list.length) {
      const key = list[at];
      if (KEYS.indexOf(key) < 0) throw slip("“" + key + "” is not known here", "known are: " + KEYS.join(", "));
      let end = at + 1;
      while (end < list.length && KEYS.indexOf(list[end]) < 0) end++;
      if (own(found, key)) throw slip(key + " is said twice", "say " + key + " once");
      found[key] = list.slice(at + 1, end).join(" ");
      if (!found[key]) throw slip("nothing stands behind " + key, "type " + EXAMPLES[key]);
      at = end;
    }
    return found;
  }

  function plainNumber(extras, key, most) {
    if (!own(extras, key)) return undefined;
    const found = NUMBER.exec(extras[key].replace(/ /g, ""));
    if (!found || ["", "v", "min", "minutes"].indexOf(found[2]) < 0) throw slip("“" + extras[key] + "” is no number for " + key, "type " + EXAMPLES[key]);
    const value = number(found[1]);
    if (!(value >= 0 && value <= most)) throw slip(key + " lies between 0 and " + most, "type " + EXAMPLES[key]);
    return value;
  }

  function loadOf(extras) {
    if (!own(extras, "load")) return undefined;
    const text = extras.load.replace(/ /g, ""), known = own(table.load_spellings, text) ? table.load_spellings[text] : text;
    if (table.loads.indexOf(known) < 0) throw slip("“" + extras.load + "” is no load of the table", "type load none, lamp, 1a, 50ma or 5ma");
    return known;
  }

  function againstOf(extras) {
    if (!own(extras, "against")) return undefined;
    const text = plain(extras.against.replace(/^cavity /, ""));
    if (own(table.against_spellings, text)) return table.against_spellings[text];
    if (CAVITY.test(text)) return /^[0-9]+$/.test(text) ? Number(text) : text.toUpperCase();
    throw slip("“" + extras.against + "” is no place for the other probe", "type against battery_negative, body, pair, or a cavity such as 4 or B.4");
  }

  // The reading that a line states, with the keys of the record but the session. Throws an Error with
  // `help` when it is none. `pair` is the cavity of the other wire of the pair, where there is one.
  function readReading(text, pair) {
    const list = (text.toLowerCase().match(WORD) || []), at = figureAt(list);
    const state = stateOf(list.slice(0, at));
    if (at === list.length) throw slip("no figure", "type what the meter shows, with its unit: " + state + " VALUE V");
    const figure = figureOf(list.slice(at), state), extras = extrasOf(figure.rest);
    if (figure.quantity === "ohm" && table.dead_states.indexOf(state) < 0) {
      throw slip("ohms are read on dead circuits only", "type unplugged or battery_off, if that is how it was read");
    }
    const limits = table.limits[figure.quantity];
    if (figure.value !== "open" && !(figure.value >= limits[0] && figure.value <= limits[1])) {
      throw slip("“" + list[at] + "” cannot be: it lies between " + limits[0] + " and " + limits[1] + " " + limits[2],
        "look for a slipped decimal point or another unit");
    }
    const minutes = plainNumber(extras, "minutes", 20000);
    if (state === "asleep" && minutes === undefined) throw slip("asleep since when?", "add how long it was left alone: minutes MINUTES");
    const battery = plainNumber(extras, "battery", 60), on = loadOf(extras), to = againstOf(extras);
    if (to === "pair" && pair === undefined) throw slip("the other wire of the pair is not described yet", "type its cavity: against 4");
    const all = { state: state, minutes: minutes, load: on === "none" ? undefined : on, against: to === "pair" ? pair : to,
      quantity: figure.quantity, value: figure.value, battery_v: battery };
    return JSON.parse(JSON.stringify(all)); // without the keys that nobody said
  }

  window.loombookReading = { load: load, readReading: readReading };
})();
