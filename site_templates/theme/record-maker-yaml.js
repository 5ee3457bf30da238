// A record as YAML in the house style. The steps are those of builder/editing (writing, house_style,
// spelling); the lists of the style come from there too, and a test compares the texts.
(function () {
  "use strict";
  const words = window.loombookShapeWords, shape = window.loombookShape;
  const PLAIN = /^[\p{L}\p{N}][\p{L}\p{N}_ ./()+%;=°²'"<>^$,-]*$/u;
  const ODD_NUMBER = /^[-+.]?[0-9][-+0-9._eExXoa-fA-F]*$/, DAY = /^[0-9]{4}-[0-9]{2}(?:-[0-9]{2})?$/;
  const READ_AS_ELSE = ["", "~", "null", "Null", "NULL", "true", "True", "TRUE", "false", "False", "FALSE"];
  // What nobody can see: controls but tab and line ends, joiners, direction marks, fillers, selectors.
  const HIDDEN = new RegExp("[\\0-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x9f\\xad\\u034f\\u061c\\u115f\\u1160\\u17b4\\u17b5" +
    "\\u180b-\\u180f\\u200b-\\u200f\\u2028-\\u202e\\u2060-\\u206f\\u3164\\ud800-\\udfff\\ufdd0-\\ufdef\\ufe00-\\ufe0f" +
    "\\ufeff\\uffa0\\ufff0-\\ufffb\\ufffe\\uffff\\u{1bca0}-\\u{1bca3}\\u{1d173}-\\u{1d17a}\\u{e0000}-\\u{e0fff}]", "gu");
  let style = null;

  function load(given) { style = given; }

  function visible(text) { return text.replace(/\r\n?/g, "\n").replace(HIDDEN, ""); }

  // ---- one value (spelling.py) ---------------------------------------------------------------
  function isPlain(text) {
    if (!PLAIN.test(text) || text.endsWith(" ") || (ODD_NUMBER.test(text) && !DAY.test(text))) return false;
    return READ_AS_ELSE.indexOf(text) < 0;
  }

  function textOf(text, flow) {
    if (visible(text) !== text) throw new Error("a character that nobody can see stands in " + JSON.stringify(text));
    return isPlain(text) && !(flow && text.indexOf(",") >= 0) ? text : JSON.stringify(text);
  }

  function scalar(value, flow) { return typeof value === "string" ? textOf(value, flow) : JSON.stringify(value); }

  function flowText(value) {
    if (Array.isArray(value)) return "[" + value.map(flowText).join(", ") + "]";
    if (!shape.isObject(value)) return scalar(value, true);
    return "{" + Object.keys(value).map((key) => textOf(key, true) + ": " + flowText(value[key])).join(", ") + "}";
  }

  // ---- what stands on one line (house_style.py) ------------------------------------------------------
  function ordered(value, kind, path) {
    const places = words.schemaAt(kind, path).order || [];
    const place = (key) => places.indexOf(key) < 0 ? places.length : places.indexOf(key), out = {};
    Object.keys(value).sort((a, b) => place(a) - place(b)).forEach((key) => { out[key] = value[key]; });
    return out;
  }

  function keyOf(path) { return path.filter((step) => typeof step === "string").pop() || ""; }

  function holdsStructures(items) { return items.some((item) => item !== null && typeof item === "object"); }

  function holdsItemLists(value) {
    return Object.keys(value).some((key) => Array.isArray(value[key]) && holdsStructures(value[key]) && style.one_line_lists.indexOf(key) < 0);
  }

  function staysOpen(path, value) {
    const key = keyOf(path), list = Array.isArray(value);
    if (!(list ? value : Object.keys(value)).length) return false;
    if (list) return holdsStructures(value) && style.one_line_lists.indexOf(key) < 0;
    if (typeof path[path.length - 1] === "number") {
      return style.one_line_items.indexOf(key) < 0 && (style.open_items.indexOf(key) >= 0 || holdsItemLists(value));
    }
    return style.open_mappings.indexOf(key) >= 0 || holdsItemLists(value);
  }

  function mayRunOver(path) {
    return typeof path[path.length - 1] === "number" && style.one_line_items.indexOf(keyOf(path)) >= 0;
  }

  // ---- lines (writing.py) ----------------------------------------------------------------------
  function allOrdered(value, kind, path) {
    if (Array.isArray(value)) return value.map((item, index) => allOrdered(item, kind, path.concat(index)));
    if (!shape.isObject(value)) return value;
    const out = ordered(value, kind, path);
    Object.keys(out).forEach((key) => { out[key] = allOrdered(out[key], kind, path.concat(key)); });
    return out;
  }

  function inline(value, kind, path, before) {
    if (value === null || typeof value !== "object") return scalar(value, false);
    if (staysOpen(path, value)) return null;
    const text = flowText(allOrdered(value, kind, path)), some = (Array.isArray(value) ? value : Object.keys(value)).length;
    const fits = 2 * (path.length - 1) + before + shape.letters(text) <= style.width;
    return fits || !some || mayRunOver(path) ? text : null;
  }

  function indented(lines) { return lines.map((line) => line ? "  " + line : ""); }

  function keyLines(key, value, kind, path) {
    const head = textOf(key, true) + ":", one = inline(value, kind, path, shape.letters(head) + 1);
    return one !== null ? [head + " " + one] : [head].concat(indented(block(value, kind, path)));
  }

  function itemLines(value, kind, path) {
    const one = inline(value, kind, path, 2);
    if (one !== null) return ["- " + one];
    const lines = block(value, kind, path);
    return ["- " + lines[0]].concat(indented(lines.slice(1)));
  }

  function block(value, kind, path) {
    let lines = [];
    if (!Array.isArray(value)) {
      const inner = ordered(value, kind, path);
      Object.keys(inner).forEach((key) => { lines = lines.concat(keyLines(key, inner[key], kind, path.concat(key))); });
      return lines;
    }
    value.forEach(function (item, index) {
      if (index && path.length === 1 && path[0] === "plugs") lines.push("");
      lines = lines.concat(itemLines(item, kind, path.concat(index)));
    });
    return lines;
  }

  // A new record in the house style; it reads back as the same record.
  function writeRecord(record, kind) {
    const about = style.kinds[kind], lines = [about.schema_line].concat(record.data === "invented" ? about.invented : [], "");
    const top = ordered(record, kind, []);
    let out = lines;
    Object.keys(top).forEach(function (key) {
      if (about.sections.indexOf(key) >= 0) {
        const explained = top[key] !== null && typeof top[key] === "object" ? about.explanations[key] || [] : [];
        out = out.concat("", explained);
      }
      out = out.concat(keyLines(key, top[key], kind, [key]));
    });
    return out.join("\n") + "\n";
  }

  window.loombookYaml = { load: load, writeRecord: writeRecord, visible: visible };
})();
