// What is wrong with the shape of a record, one finding for each fault, and what to type. The
// steps are those of builder/schema_check (single_faults, checking, nearest); the ids are the same.
(function () {
  "use strict";
  const shape = window.loombookShape;
  const TELLING_FIRST = ["type", "enum", "minLength", "pattern", "format", "not", "maxLength", "exclusiveMinimum",
    "minimum", "maximum", "minItems", "maxItems", "minProperties", "uniqueItems", "falseSchema", "unknown", "required"];
  const IDS = { type: "SCH103", enum: "SCH104", minimum: "SCH105", exclusiveMinimum: "SCH105", maximum: "SCH105",
    pattern: "SCH106", not: "SCH106", format: "SCH106", minLength: "SCH111", maxLength: "SCH111", minItems: "SCH112",
    maxItems: "SCH112", minProperties: "SCH112", uniqueItems: "SCH113" };
  const TYPES = { object: "a group of keys", array: "a list", string: "text", number: "a number", integer: "a whole number" };
  const MISSING = ["SCH102", "SCH108"];
  const CLOSE_ENOUGH = 0.65;
  let schemas = null;

  function load(given) { schemas = given; }

  // ---- the schema of a place ----------------------------------------------------------------
  function resolve(schema) {
    while (schema && schema.$ref) {
      const target = schemas.defs.$defs[schema.$ref.split("/").pop()], beside = Object.assign({}, schema);
      delete beside.$ref;
      schema = Object.assign({}, target, beside);
    }
    return schema || {};
  }

  function schemaAt(kind, path) {
    let schema = resolve(schemas[kind]);
    path.forEach(function (step) {
      const keys = schema.properties || {};
      schema = resolve(typeof step === "number" ? schema.items : shape.own(keys, step) ? keys[step] : {});
    });
    return schema;
  }

  // ---- the nearest spelling: what two words share, as Python's difflib counts it -------------------
  function shared(a, b) {
    let best = 0, at = 0, to = 0, before = [];
    for (let i = 0; i < a.length; i++) {
      const row = [];
      for (let j = 0; j < b.length; j++) {
        row[j] = a[i] === b[j] ? (before[j - 1] || 0) + 1 : 0;
        if (row[j] > best) { best = row[j]; at = i - best + 1; to = j - best + 1; }
      }
      before = row;
    }
    if (!best) return 0;
    return best + shared(a.slice(0, at), b.slice(0, to)) + shared(a.slice(at + best), b.slice(to + best));
  }

  function likeness(a, b) { return a.length + b.length ? 2 * shared(a, b) / (a.length + b.length) : 1; }

  function plain(word) { return String(word).toLowerCase().replace(/[ \-_.]/g, ""); }

  function nearest(written, legal) {
    let best = null, most = CLOSE_ENOUGH;
    legal.forEach(function (word) {
      const like = likeness(plain(word), plain(written));
      if (like > most || (like === most && best === null)) { best = word; most = like; }
    });
    return best;
  }

  // ---- one fault, one finding ------------------------------------------------------------------
  function keyOf(path) { return JSON.stringify(path); }

  function rankOf(violation) {
    const at = TELLING_FIRST.indexOf(violation.keyword);
    return at < 0 ? TELLING_FIRST.length : at;
  }

  function covers(seen, violation) {
    const c = violation.condition;
    return seen.has(keyOf(violation.path)) || (c !== null && c.watches.some((key) => seen.has(keyOf(c.at.concat(key)))));
  }

  function meantKeys(kind, ordered) {
    const missing = ordered.filter((one) => one.keyword === "required").map((one) => one.path), meant = new Map();
    ordered.filter((one) => one.keyword === "unknown").forEach(function (one) {
      const place = one.path.slice(0, -1), written = one.path[one.path.length - 1];
      const wanted = missing.filter((path) => keyOf(path.slice(0, -1)) === keyOf(place)).map((path) => path[path.length - 1]);
      const key = nearest(written, wanted) || nearest(written, Object.keys(schemaAt(kind, place).properties || {}));
      if (key !== null) meant.set(keyOf(one.path), { place: place, key: key });
    });
    return meant;
  }

  function faults(kind, record) {
    const ordered = shape.violations(kind, record).sort((a, b) => rankOf(a) - rankOf(b));
    const meant = meantKeys(kind, ordered), seen = new Set(), out = [], groups = new Map();
    meant.forEach((one) => seen.add(keyOf(one.place.concat(one.key))));
    ordered.forEach(function (one) {
      if (one.condition !== null) {
        const name = JSON.stringify([one.condition.at, one.condition.because]);
        groups.set(name, (groups.get(name) || []).concat(one));
      } else if (!covers(seen, one)) {
        seen.add(keyOf(one.path));
        out.push({ first: one, together: [], meant: (meant.get(keyOf(one.path)) || {}).key });
      }
    });
    groups.forEach(function (group) {
      if (group.some((one) => covers(seen, one))) return;
      group.forEach((one) => seen.add(keyOf(one.path)));
      out.push({ first: group[0], together: group });
    });
    return out;
  }

  // ---- words -----------------------------------------------------------------------------------
  function quoted(value) {
    const text = (typeof value === "string" ? value : JSON.stringify(value)).replace(/[\n\r]/g, "⏎").replace(/\t/g, "⇥");
    return "“" + (text.length > 60 ? text.slice(0, 59) + "…" : text) + "”";
  }

  function last(path) { return path[path.length - 1]; }

  function nameOf(path) {
    if (!path.length) return "the record";
    const step = last(path);
    return typeof step === "string" ? quoted(step) : "item " + (step + 1) + " of " + nameOf(path.slice(0, -1));
  }

  function joined(words, end) {
    return words.length < 2 ? words.join("") : words.slice(0, -1).join(", ") + " " + end + " " + last(words);
  }

  function unit(schema) { return schema.unit && schema.unit !== "year" ? " " + schema.unit : ""; }

  function example(schema) {
    const one = (schema.examples || [])[0];
    if (schema.asked) return ": " + schema.asked;
    return one === undefined ? "" : ", for example " + (typeof one === "string" ? one : JSON.stringify(one));
  }

  function meaning(schema) { return schema.description ? " (" + schema.description.replace(/\.$/, "") + ")" : ""; }

  function finding(id, path, message, help) {
    return { id: id, path: path, message: message, help: help, missing: MISSING.indexOf(id) >= 0, severity: "stop" };
  }

  function range(schema) {
    const from = schema.exclusiveMinimum !== undefined ? "above " + schema.exclusiveMinimum : "from " + schema.minimum;
    return "type a number " + from + " to " + schema.maximum + unit(schema) + ".";
  }

  function unknownKey(kind, fault) {
    const path = fault.first.path, place = path.slice(0, -1);
    const help = fault.meant ? "did you mean " + quoted(fault.meant) + "?" : "delete it.";
    return finding("SCH101", path, "key " + quoted(last(path)) + " is not known in " + nameOf(place), help);
  }

  function ofCondition(kind, fault) {
    const because = fault.first.condition.because, say = because[0].toLowerCase() + because.slice(1);
    const refused = fault.together.filter((one) => one.keyword === "falseSchema").map((one) => one.path);
    const watched = joined(fault.first.condition.watches.map(quoted), "or"), path = fault.first.path;
    if (refused.length) {
      const keys = joined(refused.map((one) => quoted(last(one))), "and");
      return finding("SCH107", refused[0], keys + (refused.length > 1 ? " are" : " is") + " not allowed here: " + say,
        "leave " + keys + " out, or correct " + watched + ".");
    }
    if (fault.first.keyword === "required") {
      const keys = fault.together.map((one) => quoted(last(one.path)));
      return finding("SCH108", path, joined(keys, "and") + (keys.length > 1 ? " are" : " is") + " needed here: " + say,
        "answer " + joined(keys, "and") + ".");
    }
    return finding("SCH109", path, nameOf(path) + " is " + quoted(fault.first.value) + ": " + say,
      Array.isArray(fault.first.limit) && fault.first.keyword === "enum" ? "allowed here: " + fault.first.limit.join(", ") + "." :
        "correct " + quoted(last(path)) + ", or correct " + watched + ".");
  }

  function wrongType(path, value, schema) {
    const names = [].concat(schema.type || []), other = (schema.then || {}).enum || [];
    if (schema.unit && typeof value === "string") {
      return finding("SCH103", path, nameOf(path) + " is " + quoted(value) + ", which is no number",
        "type the figure in " + schema.unit + " alone" + (other.length ? ", or " + joined(other, "or") : "") + ".");
    }
    return finding("SCH103", path, nameOf(path) + " should be " + joined(names.map((one) => TYPES[one] || one), "or"),
      "write it as it should be" + example(schema) + ".");
  }

  function ofValue(kind, violation) {
    const path = violation.path, value = violation.value, schema = schemaAt(kind, path), where = nameOf(path);
    const most = violation.limit, keyword = violation.keyword, id = IDS[keyword];
    if (value === null || (typeof value === "string" && !value.trim())) {
      return finding("SCH110", path, where + " is empty", "write it" + example(schema) + ", or leave it out.");
    }
    if (path.length === 1 && path[0] === "schema" && keyword === "enum") {
      return finding("SCH114", path, "the record format " + quoted(value) + " is not one that this version reads", "type " + most[0] + ".");
    }
    if (keyword === "type" || (keyword === "enum" && Array.isArray(schema.type))) return wrongType(path, value, schema);
    if (keyword === "enum") {
      const near = nearest(value, most.map(String));
      return finding(id, path, quoted(value) + " is not a word for " + where, (near ? "did you mean " + near + "? " : "") + "allowed: " + most.join(", ") + ".");
    }
    if (id === "SCH105") {
      const how = keyword === "maximum" ? "more" : keyword === "minimum" ? "less" : "not more";
      return finding(id, path, where + " is " + value + unit(schema) + ", " + how + " than " + most + unit(schema), range(schema));
    }
    if (id === "SCH106") return wrongForm(path, value, schema, keyword);
    if (id === "SCH113") {
      const at = value.findIndex((item, index) => value.slice(0, index).some((one) => shape.same(one) === shape.same(item)));
      return finding(id, path.concat(at), quoted(value[at]) + " stands twice in " + where, "keep one of the two.");
    }
    if (id === "SCH112") {
      const many = keyword.indexOf("max") === 0, count = Array.isArray(value) ? value.length : Object.keys(value).length;
      return finding(id, path, where + " has " + count + " entries, " + (many ? "more" : "less") + " than " + most,
        many ? "shorten the list." : "write at least " + most + example(schema) + ".");
    }
    const long = keyword === "maxLength";
    return finding(id, path, where + " has " + shape.letters(value) + " characters, " + (long ? "more" : "less") + " than " + most,
      long ? "shorten it." : "say more.");
  }

  function wrongForm(path, value, schema, keyword) {
    if (keyword === "format") return finding("SCH106", path, quoted(value) + " is no day of the calendar", "type the day as YYYY-MM-DD.");
    if (!schema.formMeaning) return finding("SCH106", path, nameOf(path) + " goes over more than one line", "write it on one line.");
    const mended = [(value.toLowerCase().match(/[a-z0-9]+/g) || []).join("-"), value.trim().toUpperCase()]
      .find((text) => text && new RegExp(schema.pattern, "u").test(text));
    return finding("SCH106", path, nameOf(path) + " is " + quoted(value) + "; it should be " + schema.formMeaning,
      mended ? "did you mean " + mended + "?" : "write it so" + example(schema) + ".");
  }

  function explain(kind, fault) {
    const one = fault.first;
    if (one.condition !== null) return ofCondition(kind, fault);
    if (one.keyword === "unknown") return unknownKey(kind, fault);
    if (one.keyword === "required") {
      const schema = schemaAt(kind, one.path), may = (schema.enum || []).concat((schema.then || {}).enum || []).indexOf("unknown") >= 0;
      return finding("SCH102", one.path, quoted(last(one.path)) + " is not answered" + meaning(schema), "answer it" + (may ? ", if only with unknown." : "."));
    }
    return ofValue(kind, one);
  }

  // What is wrong with the shape of a record: {id, path, message, help, missing, severity} each.
  function shapeFindings(kind, record) { return faults(kind, record).map((fault) => explain(kind, fault)); }

  window.loombookShapeWords = { load: load, resolve: resolve, schemaAt: schemaAt, nearest: nearest, likeness: likeness,
    shapeFindings: shapeFindings, joined: joined };
})();
