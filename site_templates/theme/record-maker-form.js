// Fields made from the schema of a record: one for every key, whatever the key is. A key that is left
// out is not in the record; unknown, none and no are answers and are.
(function () {
  "use strict";
  const shape = window.loombookShape, words = window.loombookShapeWords, yaml = window.loombookYaml;
  const BUTTONS_UP_TO = 6, SENTENCE = 200, NOTE = 1000;
  let host = null; // {draft(), changed(), again(), findings(kind), special: {key: maker}}

  function load(given) { host = given; }

  // ---- the record ------------------------------------------------------------------------------
  function last(path) { return path[path.length - 1]; }

  function get(record, path) {
    return path.reduce((at, step) => at !== null && typeof at === "object" && shape.own(at, step) ? at[step] : undefined, record);
  }

  function put(record, path, value) {
    const parent = path.slice(0, -1).reduce(function (at, step, index) {
      if (!shape.own(at, step)) at[step] = typeof path[index + 1] === "number" ? [] : {};
      return at[step];
    }, record);
    if (value !== undefined) parent[last(path)] = value;
    else if (Array.isArray(parent)) parent.splice(last(path), 1);
    else delete parent[last(path)];
  }

  // ---- small parts of a page ---------------------------------------------------------------------
  function element(tag, name, text) {
    const node = document.createElement(tag);
    if (name) node.className = name;
    if (text !== undefined) node.textContent = text;
    return node;
  }

  function button(text, press, pressed, name) {
    const node = element("button", "button" + (name ? " " + name : ""), text);
    node.type = "button";
    if (pressed !== undefined && pressed !== null) node.setAttribute("aria-pressed", String(pressed));
    node.addEventListener("click", press);
    return node;
  }

  function idOf(kind, path) { return "maker-" + kind + "-" + path.join("-").replace(/[^A-Za-z0-9-]/g, "_"); }

  function plain(key) {
    const text = String(key).replace(/_(v_rms|mm2|mm|awg|mohm|ohm|min|ms|ah|hz|ma|w|a|m|v|s)$/, "").replace(/_/g, " ");
    return text[0].toUpperCase() + text.slice(1);
  }

  function word(text) { return String(text).replace(/_/g, " "); }

  // ---- one field -----------------------------------------------------------------------------------
  function frame(at, schema, group) {
    const box = element("div", "maker-field"), name = element(group ? "p" : "label", "maker-label", at.label || plain(last(at.path)));
    box.setAttribute("data-kind", at.kind);
    box.setAttribute("data-path", JSON.stringify(at.path));
    if (schema.unit && [].concat(schema.type).indexOf("number") < 0 && [].concat(schema.type).length > 1) name.textContent += ", " + schema.unit;
    name.id = at.id + "-label";
    if (!group) name.htmlFor = at.id;
    if (!at.required || at.inline) name.appendChild(element("small", "", " may be left out"));
    name.appendChild(element("span", "maker-due", ""));
    const help = element("p", "maker-help", schema.description || "");
    help.id = at.id + "-help";
    const slip = element("p", "maker-slip");
    slip.id = at.id + "-slip";
    box.appendChild(name);
    box.appendChild(help);
    return { box: box, end: function (parts) { parts.forEach((part) => box.appendChild(part)); box.appendChild(slip); return box; } };
  }

  function change(at, value, again) {
    put(at.record, at.path, value);
    const parent = at.path.slice(0, -1);
    // A group whose fields stand open without being asked for is left out when it holds nothing.
    if (at.inline && !Object.keys(get(at.record, parent) || {}).length) put(at.record, parent, undefined);
    if (again) host.again(document.activeElement && document.activeElement.id);
    host.changed();
  }

  function choices(at, options, isChosen, press, meanings) {
    const row = element("div", "maker-choices");
    row.setAttribute("role", "group");
    row.setAttribute("aria-labelledby", at.id + "-label");
    options.forEach(function (option, index) {
      const one = button(word(option), () => press(option), isChosen(option));
      one.id = at.id + "-" + index;
      if (meanings && meanings[option]) one.title = meanings[option];
      row.appendChild(one);
    });
    return row;
  }

  function explained(schema, value) {
    const text = (schema.wordMeanings || {})[value];
    return element("p", "maker-means", text || "");
  }

  function ofWords(at, schema) {
    const value = get(at.record, at.path), few = schema.enum.length <= BUTTONS_UP_TO, made = frame(at, schema, few);
    const say = explained(schema, value);
    if (few) return made.end([choices(at, schema.enum, (one) => one === value, (one) => change(at, one === value ? undefined : one, true), schema.wordMeanings), say]);
    const select = element("select"), names = at.names || {};
    select.id = at.id;
    select.appendChild(new Option("choose", ""));
    schema.enum.forEach((one) => select.appendChild(new Option(names[one] || word(one), one)));
    select.value = value === undefined ? "" : value;
    select.addEventListener("change", () => change(at, select.value || undefined, true));
    return made.end([select, say]);
  }

  function input(at, type, text, read) {
    const node = element("input");
    node.id = at.id;
    node.type = type;
    node.autocomplete = "off";
    node.setAttribute("aria-describedby", at.id + "-help " + at.id + "-slip");
    node.value = text;
    node.addEventListener("input", () => change(at, read(node.value), false));
    return node;
  }

  // A figure as typed: a number when it is one, else the text, which then is a finding.
  function figure(text) {
    const plainText = yaml.visible(text).trim().replace(",", ".").replace("−", "-");
    if (plainText === "") return undefined;
    return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plainText) ? Number(plainText) : yaml.visible(text).trim();
  }

  function ofNumber(at, schema) {
    const value = get(at.record, at.path), others = (schema.then || {}).enum || [], made = frame(at, schema, false);
    const node = input(at, "text", value === undefined || others.indexOf(value) >= 0 ? "" : String(value), figure);
    node.inputMode = "decimal";
    const row = element("div", "maker-figure");
    row.appendChild(node);
    if (schema.unit && schema.unit !== "year") row.appendChild(element("span", "maker-unit", schema.unit));
    others.forEach(function (other) {
      const one = button(other, () => change(at, value === other ? undefined : other, true), value === other);
      one.id = at.id + "-" + other;
      row.appendChild(one);
    });
    return made.end([row]);
  }

  // A cavity, a gauge: a number when it is written as one.
  function name(text) {
    const seen = yaml.visible(text).trim();
    return seen === "" ? undefined : /^[0-9]+$/.test(seen) ? Number(seen) : seen.length <= 3 ? seen.toUpperCase() : seen;
  }

  function point(text) {
    const seen = yaml.visible(text).trim();
    return /^[0-9]+$/.test(seen) ? Number(seen) : seen || undefined;
  }

  function line(text) {
    const seen = yaml.visible(text).replace(/[\n\t]+/g, " ").trim();
    return seen === "" ? undefined : seen;
  }

  function ofText(at, schema) {
    const value = get(at.record, at.path), made = frame(at, schema, false), text = value === undefined ? "" : String(value);
    const key = last(at.path), mixed = Array.isArray(schema.type), form = schema.formMeaning || "";
    if ((schema.maxLength || 0) >= NOTE) return made.end([area(at, text, (typed) => yaml.visible(typed).trim() || undefined)]);
    const type = form.indexOf("YYYY-MM-DD") === 0 ? "date" : form.indexOf("YYYY-MM") === 0 ? "month" : "text";
    const node = input(at, type, text, mixed ? (key === "against" ? point : name) : line);
    if (schema.asked && type === "text") node.placeholder = schema.asked;
    else if (schema.examples && type === "text") node.placeholder = String(schema.examples[0]);
    if (form && !mixed) { node.autocapitalize = "none"; node.spellcheck = false; }
    const offered = at.offers ? at.offers(at) : [];
    return made.end(offered.length ? [node, choices(at, offered, (one) => one === value, (one) => change(at, one, true))] : [node]);
  }

  function area(at, text, read) {
    const node = element("textarea");
    node.id = at.id;
    node.rows = 3;
    node.setAttribute("aria-describedby", at.id + "-help " + at.id + "-slip");
    node.value = text;
    node.addEventListener("input", () => change(at, read(node.value), false));
    return node;
  }

  // ---- lists -------------------------------------------------------------------------------------
  // [] says that somebody looked and found none; a list that is left out says nothing.
  function noneButton(at, schema) {
    const value = get(at.record, at.path), none = Array.isArray(value) && !value.length;
    if (schema.minItems || !(at.required || (schema.description || "").indexOf("[]") >= 0)) return [];
    const one = button("none: looked, there are none", () => change(at, none ? undefined : [], true), none);
    one.id = at.id + "-none";
    return [one];
  }

  function quick(at, schema) {
    return ["all", "unknown"].filter((one) => (schema.description || "").indexOf("[" + one + "]") >= 0).map(function (text) {
      const value = get(at.record, at.path), chosen = Array.isArray(value) && value.length === 1 && value[0] === text;
      const one = button(text, () => change(at, chosen ? undefined : [text], true), chosen);
      one.id = at.id + "-" + text;
      return one;
    });
  }

  function ofTexts(at, schema, items) {
    const value = get(at.record, at.path) || [], made = frame(at, schema, false), long = (items.maxLength || 0) > SENTENCE;
    const mixed = Array.isArray(items.type), read = mixed ? name : line;
    const split = (typed) => typed.split(long ? "\n" : /[,\n]/).map(read).filter((one) => one !== undefined);
    const parse = (typed) => split(typed).length ? split(typed) : undefined;
    made.box.querySelector(".maker-help").textContent += long ? " One a line." : " Commas between them.";
    const node = long ? area(at, value.join("\n"), parse) : input(at, "text", value.join(", "), parse);
    const more = element("div", "maker-choices");
    quick(at, schema).concat(noneButton(at, schema)).forEach((one) => more.appendChild(one));
    return made.end([node].concat(more.childNodes.length ? more : []));
  }

  function ofManyWords(at, schema, items) {
    const value = get(at.record, at.path) || [], made = frame(at, schema, true);
    const row = choices(at, items.enum, (one) => value.indexOf(one) >= 0, function (one) {
      const next = value.indexOf(one) >= 0 ? value.filter((other) => other !== one) : value.concat(one);
      change(at, next.length ? next : undefined, true);
    }, items.wordMeanings);
    noneButton(at, schema).forEach((one) => row.appendChild(one));
    return made.end([row]);
  }

  // Whether the items of a list are groups of keys, though a word may stand in the place of one.
  function isPart(items) { return [].concat(items.type).indexOf("object") >= 0; }

  function ofParts(at, schema, items) {
    const value = get(at.record, at.path) || [], made = frame(at, schema, true);
    const cards = value.map(function (part, index) {
      const path = at.path.concat(index), card = element("div", "maker-card"), head = element("p", "maker-card-head", plain(last(at.path)) + " " + (index + 1));
      const gone = button("Remove", function () { change({ record: at.record, path: path }, undefined, true); }, null, "small");
      gone.setAttribute("aria-label", "Remove " + plain(last(at.path)) + " " + (index + 1));
      head.appendChild(gone);
      card.appendChild(head);
      if (typeof part === "string") card.appendChild(element("p", "", part));
      else if (isPart(items)) keys(at, path).forEach((one) => card.appendChild(one));
      else card.appendChild(field(Object.assign({}, at, { path: path, required: true })));
      return card;
    });
    const add = button("Add", function () {
      put(at.record, at.path, value.concat(isPart(items) ? [(at.fresh || (() => skeleton(items)))(at)] : [[]]));
      host.again(idOf(at.kind, at.path) + "-add");
      host.changed();
    });
    add.id = at.id + "-add";
    add.setAttribute("aria-label", "Add to " + (at.label || plain(last(at.path))));
    const row = element("div", "maker-choices");
    row.appendChild(add);
    if (!value.length) quick(at, schema).concat(noneButton(at, schema)).forEach((one) => row.appendChild(one));
    return made.end(cards.concat(row));
  }

  // ---- groups of keys ------------------------------------------------------------------------------
  // A record of nothing but the group at a path, for asking the validator about that group.
  function alone(group, path) {
    return path.slice().reverse().reduce((inner, step) => typeof step === "number" ? [inner] : { [step]: inner }, group);
  }

  // Which keys other values refuse or ask for: the validator is asked, so that no rule is written twice.
  function asked(at, path, key) {
    const group = get(at.record, path) || {}, place = path.map((step) => typeof step === "number" ? 0 : step).concat(key);
    const isSaid = function (keyword, there) {
      const trial = Object.assign({}, group);
      delete trial[key];
      if (there) trial[key] = null;
      return shape.violations(at.kind, alone(trial, path)).some((one) => one.keyword === keyword && JSON.stringify(one.path) === JSON.stringify(place));
    };
    return { needed: isSaid("required", false), refused: group[key] === undefined && isSaid("falseSchema", true) };
  }

  // What a new group must have: its own groups, empty, so that each open answer counts by itself.
  function skeleton(schema) {
    const out = {};
    (schema.required || []).forEach(function (key) {
      const inner = words.resolve(schema.properties[key]);
      if (inner.type === "object") out[key] = skeleton(inner);
    });
    return out;
  }

  // The fields of all keys of the group at a path.
  function keys(at, path, without) {
    const schema = words.schemaAt(at.kind, path), required = schema.required || [];
    return schema.order.filter((key) => (without || []).indexOf(key) < 0).map(function (key) {
      const says = schema.conditional && required.indexOf(key) < 0 ? asked(at, path, key) : { needed: required.indexOf(key) >= 0, refused: false };
      return says.refused ? null : field(Object.assign({}, at, { path: path.concat(key), required: says.needed, label: "", offers: null, names: null, fresh: null, inline: at.inline }));
    }).filter(Boolean);
  }

  function ofGroup(at, schema) {
    const there = get(at.record, at.path) !== undefined, made = frame(at, schema, true);
    if (!there && !at.required && !at.inline) {
      const add = button("Add", () => change(at, skeleton(schema), true));
      add.id = at.id + "-add";
      add.setAttribute("aria-label", "Add " + (at.label || plain(last(at.path))));
      return made.end([add]);
    }
    const inside = element("div", "maker-inside");
    keys(at, at.path).forEach((one) => inside.appendChild(one));
    if (!at.required && there) {
      const out = button("Leave out", () => change(at, undefined, true), null, "small");
      out.setAttribute("aria-label", "Leave out " + (at.label || plain(last(at.path))));
      inside.appendChild(out);
    }
    return made.end([inside]);
  }

  // The field of one key. `at`: {kind, record, path, required}; also label, names of words, offers.
  function field(given) {
    const schema = words.schemaAt(given.kind, given.path), key = last(given.path), at = Object.assign({}, given, { id: idOf(given.kind, given.path) });
    const special = host.special[given.kind + "." + key] || host.special[key];
    if (special && !given.asWritten) {
      const made = special(at, schema);
      if (made instanceof Node) return made;
      Object.assign(at, made);
    }
    const types = [].concat(schema.type || []);
    if (types.indexOf("object") >= 0) return ofGroup(at, schema);
    if (types.indexOf("array") >= 0) {
      const items = words.resolve(schema.items);
      if (items.enum) return ofManyWords(at, schema, items);
      return isPart(items) || items.type === "array" ? ofParts(at, schema, items) : ofTexts(at, schema, items);
    }
    if (schema.enum && types.indexOf("string") >= 0) return ofWords(at, schema);
    if (types.indexOf("number") >= 0 || (types.length === 1 && types[0] === "integer")) return ofNumber(at, schema);
    return ofText(at, schema);
  }

  // ---- findings beside the fields ------------------------------------------------------------------
  function covers(path, other) { return path.length <= other.length && path.every((step, index) => step === other[index]); }

  function sentence(text) { return text[0].toUpperCase() + text.slice(1).replace(/\.?$/, "."); }

  // Show each finding at the field that lies nearest to it.
  function showFindings(root, findings) {
    const boxes = Array.from(root.querySelectorAll("[data-path]")).map((box) => ({ box: box, kind: box.dataset.kind, path: JSON.parse(box.dataset.path), said: [] }));
    findings.forEach(function (one) {
      const near = boxes.filter((box) => box.kind === one.file && covers(box.path, one.path)).sort((a, b) => b.path.length - a.path.length)[0];
      if (near) near.said.push(one);
    });
    boxes.forEach(function (one) {
      const due = one.said.some((f) => f.missing), wrong = one.said.filter((f) => !f.missing || f.path.length > one.path.length);
      const mark = one.box.querySelector(":scope > .maker-label > .maker-due"), slip = one.box.querySelector(":scope > .maker-slip");
      if (mark) mark.textContent = due ? " to answer" : "";
      if (slip) slip.textContent = wrong.map((f) => sentence(f.message + ": " + f.help)).join(" ");
    });
  }

  window.loombookForm = { load: load, get: get, put: put, element: element, button: button, idOf: idOf, plain: plain, word: word,
    field: field, keys: keys, showFindings: showFindings, skeleton: skeleton, name: name, line: line, choices: choices };
})();
