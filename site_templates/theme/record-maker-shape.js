// The keywords of the record schemas. The functions that call them are written at build time
// (record-maker-validator.js), from the same schema files that the command checks with.
// v: the value, p: its path, o: what was found so far, c: the condition that applies, or null.
(function () {
  "use strict";
  let kinds = {};

  function isObject(v) { return v !== null && typeof v === "object" && !Array.isArray(v); }

  function own(object, key) { return Object.prototype.hasOwnProperty.call(object, key); }

  const TYPES = {
    object: isObject,
    array: Array.isArray,
    string: (v) => typeof v === "string",
    number: (v) => typeof v === "number",
    integer: (v) => Number.isInteger(v),
    boolean: (v) => typeof v === "boolean",
    null: (v) => v === null
  };

  function found(o, keyword, p, v, limit, c) {
    o.push({ keyword: keyword, path: p, value: v, limit: limit, condition: c });
  }

  // Letters are counted as code points, as the schema counts them.
  function letters(text) { return Array.from(text).length; }

  // One text for equal values: keys in order, 1 and 1.0 alike.
  function same(v) {
    if (Array.isArray(v)) return "[" + v.map(same).join(",") + "]";
    if (!isObject(v)) return JSON.stringify(v);
    return "{" + Object.keys(v).sort().map((key) => JSON.stringify(key) + ":" + same(v[key])).join(",") + "}";
  }

  function isDay(text) {
    const part = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/.exec(text);
    if (!part || part[1] === "0000") return false;
    const day = new Date(0);
    day.setUTCFullYear(Number(part[1]), Number(part[2]) - 1, Number(part[3]));
    return day.toISOString().slice(0, 10) === text;
  }

  function holds(check, v, p) {
    const inner = [];
    check(v, p, inner, null);
    return inner.length === 0;
  }

  function limit(keyword, isKind, isBroken) {
    return function (v, p, o, c, most) {
      if (isKind(v) && isBroken(v, most)) found(o, keyword, p, v, most, c);
    };
  }

  const keywords = {
    type: function (v, p, o, c, names) {
      if (!names.some((name) => TYPES[name](v))) found(o, "type", p, v, names, c);
    },
    enum: function (v, p, o, c, words) { if (words.indexOf(v) < 0) found(o, "enum", p, v, words, c); },
    minimum: limit("minimum", TYPES.number, (v, least) => v < least),
    maximum: limit("maximum", TYPES.number, (v, most) => v > most),
    exclusiveMinimum: limit("exclusiveMinimum", TYPES.number, (v, least) => v <= least),
    minLength: limit("minLength", TYPES.string, (v, least) => letters(v) < least),
    maxLength: limit("maxLength", TYPES.string, (v, most) => letters(v) > most),
    minItems: limit("minItems", TYPES.array, (v, least) => v.length < least),
    maxItems: limit("maxItems", TYPES.array, (v, most) => v.length > most),
    minProperties: limit("minProperties", isObject, (v, least) => Object.keys(v).length < least),
    pattern: limit("pattern", TYPES.string, (v, form) => !form.test(v)),
    date: limit("format", TYPES.string, (v) => !isDay(v)),
    uniqueItems: limit("uniqueItems", TYPES.array, (v) => new Set(v.map(same)).size < v.length),
    required: function (v, p, o, c, names) {
      if (isObject(v)) names.filter((name) => !own(v, name)).forEach((name) => found(o, "required", p.concat(name), null, null, c));
    },
    only: function (v, p, o, c, names) {
      if (!isObject(v)) return;
      Object.keys(v).filter((key) => names.indexOf(key) < 0).forEach((key) => found(o, "unknown", p.concat(key), null, null, c));
    },
    never: function (v, p, o, c, name) {
      if (isObject(v) && own(v, name)) found(o, "falseSchema", p.concat(name), v[name], null, c);
    },
    key: function (v, p, o, c, name, check) {
      if (isObject(v) && own(v, name)) check(v[name], p.concat(name), o, c);
    },
    each: function (v, p, o, c, check) {
      if (Array.isArray(v)) v.forEach((item, index) => check(item, p.concat(index), o, c));
    },
    also: function (v, p, o, c, check) { check(v, p, o, c); },
    not: function (v, p, o, c, check) { if (holds(check, v, p)) found(o, "not", p, v, null, c); },
    when: function (v, p, o, c, asked, then, otherwise, because, watches) {
      const next = holds(asked, v, p) ? then : otherwise;
      if (next) next(v, p, o, because ? { at: p, because: because, watches: watches } : c);
    }
  };

  // Everything that is wrong with the shape of a record; an empty list when it is valid.
  function violations(kind, record) {
    const all = [];
    kinds[kind](record, [], all, null);
    return all;
  }

  window.loombookShape = Object.assign(keywords, {
    define: function (given) { kinds = given; },
    violations: violations, own: own, isObject: isObject, same: same, letters: letters
  });
})();
