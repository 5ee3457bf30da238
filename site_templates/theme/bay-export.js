/* What was typed on a bay sheet as YAML for `loombook evidence add`, and as plain text.
   `kept` is {sheet, session, lines: {test: {value, also, passed, ask}}, notes: {at: {note, photos}},
   ticked: {step: "yes" or "no"}}.
   No page, no store. */
(function () {
  "use strict";
  var bay = window.loombookBay;
  var NEEDED = [
    ["by", "who measured"], ["date", "the day as YYYY-MM-DD"], ["tag", "a tag for the car"]
  ];

  /* The names by which records call people and cars: small letters, digits, hyphens. */
  function handle(text) {
    return text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase()
      .replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  }

  function said(session, key) {
    var text = String(session[key] || "").trim();
    return key === "by" || key === "tag" || key === "trim" ? handle(text) : text;
  }

  /* The face whose numbers the readings have. The sheet prints the plug's own names, which are the
     same from both sides, unless somebody said that he counted for himself. */
  function faceOf(session) {
    return said(session, "counted_on") || "moulded";
  }

  /* What is still missing of the visit: [key, words] each. */
  function missing(session) {
    return NEEDED.filter(function (need) {
      var text = said(session, need[0]);
      return !text || (need[0] === "date" && !/^\d{4}-\d\d-\d\d$/.test(text));
    });
  }

  function scalar(value) {
    var plain = /^(?!(?:y|n|yes|no|true|false|on|off|null|open)$)[A-Za-z][A-Za-z0-9_-]*$/i;
    return typeof value === "number" || plain.test(value) ? String(value) : JSON.stringify(value);
  }

  function flow(facts) {
    return "{" + Object.keys(facts).map(function (key) {
      return key + ": " + (facts[key] === OPEN ? "open" : scalar(facts[key]));
    }).join(", ") + "}";
  }

  var OPEN = {};

  function carOf(session) {
    var car = { tag: said(session, "tag") };
    if (/^\d{4}$/.test(said(session, "year"))) {
      car.year = Number(said(session, "year"));
    }
    if (/^\d{4}-\d\d$/.test(said(session, "built"))) {
      car.built = said(session, "built");
    }
    if (said(session, "trim")) {
      car.trim = said(session, "trim");
    }
    return car;
  }

  function sessionLines(session) {
    var ohm = bay.numberOf(said(session, "impedance"), false);
    var lines = [
      "  by: " + scalar(said(session, "by")), "  date: " + said(session, "date"),
      "  car: " + flow(carOf(session)), "  method: " + (said(session, "method") || "meter"),
      "  read_from: " + faceOf(session),
      "  against: " + (said(session, "against") || "battery_negative")
    ];
    return ohm > 0 ? lines.concat("  meter: {impedance_mohm: " + ohm + "}") : lines;
  }

  /* Which of the figures beside a reading are not there or no numbers. */
  function without(line) {
    return (line.ask.also || []).filter(function (key) {
      return bay.numberOf((line.also || {})[key] || "", false) === null;
    });
  }

  function factsOf(line, found) {
    var facts = {};
    Object.keys(line.ask.facts).forEach(function (key) {
      var fact = line.ask.facts[key];
      facts[key] = (key === "cavity" || key === "against") && /^\d+$/.test(fact) ? Number(fact) : fact;
    });
    facts.value = found.kind === "open" ? OPEN : found.value;
    (line.ask.also || []).forEach(function (key) {
      facts[key] = bay.numberOf(line.also[key], false);
    });
    return facts;
  }

  function resultOf(line, found) {
    var result = { test: line.ask.test };
    if (line.ask.quantity === "check") {
      return line.passed ? "{test: " + line.ask.test + ", passed: " + line.passed + "}" : "";
    }
    if (found.kind === "open") {
      var passed = bay.verdict("open", line.ask).state === "in" ? "yes" : "no";
      return "{test: " + line.ask.test + ", passed: " + passed + "}";
    }
    result.value = found.value;
    if (bay.moves(line.ask) && bay.batteryOf((line.also || {}).battery_v) !== null) {
      result.battery_v = bay.batteryOf(line.also.battery_v);
    }
    if (line.ask.mohm && bay.currentOf(bay.besideOf(line)) !== null) {
      result.current_a = bay.currentOf(bay.besideOf(line));
    }
    return flow(result);
  }

  /* Each line that was filled: [line, what was read]. */
  function filled(kept) {
    return Object.keys(kept.lines).map(function (test) {
      var line = kept.lines[test];
      return [line, bay.read(line.value || "", line.ask)];
    }).filter(function (pair) {
      return pair[0].passed || pair[1].kind === "value" || pair[1].kind === "open";
    });
  }

  /* What was noted, an item a photo: {at, note, photo}, the note with the first. */
  function noted(kept) {
    var notes = kept.notes || {};
    return [].concat.apply([], Object.keys(notes).map(function (at) {
      var photos = notes[at].photos.length ? notes[at].photos : [""];
      return photos.map(function (photo, number) {
        var item = { at: at };
        if (notes[at].note && !number) {
          item.note = notes[at].note;
        }
        return photo ? Object.assign(item, { photo: photo }) : item;
      });
    }));
  }

  /* The steps that are done, and those that the book had as done and that are not. */
  function ticked(kept) {
    var steps = kept.ticked || {};
    return Object.keys(steps).map(function (at) {
      return "  - {at: " + scalar(at) + ", done: " + steps[at] + "}";
    });
  }

  function yaml(kept) {
    var sheet = kept.sheet, readings = [], results = [], left = [];
    filled(kept).forEach(function (pair) {
      var line = pair[0], lacking = line.ask.facts ? without(line) : [];
      if (line.ask.facts && lacking.length) {
        left.push("# not among the readings: " + line.ask.test + ", without " + lacking.join(", "));
      } else if (line.ask.facts) {
        readings.push("  - " + flow(factsOf(line, pair[1])));
      }
      results.push("  - " + resultOf(line, pair[1]));
    });
    var head = ["schema: 1", "vehicle: " + scalar(sheet.vehicle)];
    ["job", "converter"].forEach(function (key) {
      if (sheet[key]) {
        head.push(key + ": " + scalar(sheet[key]));
      }
    });
    if (sheet.record) {
      head.push("record: " + JSON.stringify(sheet.record));
    }
    head = head.concat("session:", sessionLines(kept.session), left);
    head = head.concat(readings.length ? ["readings:"].concat(readings) : ["readings: []"]);
    if (sheet.job && results.length) {
      head = head.concat("results:", results);
    }
    if (sheet.job && noted(kept).length) {
      head = head.concat("notes:", noted(kept).map(function (note) { return "  - " + flow(note); }));
    }
    if (sheet.job && ticked(kept).length) {
      head = head.concat("ticked:", ticked(kept));
    }
    return head.join("\n") + "\n";
  }

  function text(kept) {
    var session = kept.session, sheet = kept.sheet;
    var lines = [
      "Bay sheet " + (sheet.job || sheet.vehicle) + ", state " + (sheet.record || "not known"),
      ["by", "date", "tag"].map(function (key) { return said(session, key); }).join(", ")
    ].concat(said(session, "counted_on") && sheet.faces ? "cavities counted " + sheet.faces[faceOf(session)] : []);
    filled(kept).forEach(function (pair) {
      var line = pair[0], beside = bay.besideOf(line);
      var judged = bay.verdict(line.value || "", line.ask, beside);
      var read = line.passed || line.value + (pair[1].kind === "open" ? "" : " " + bay.unitOf(line.ask));
      read += !beside ? "" : line.ask.mohm ? ", at " + beside + " A" : ", battery " + beside + " V";
      lines.push(line.ask.test + ": " + read + (judged.words ? ", " + judged.words : ""));
    });
    return lines.join("\n") + "\n";
  }

  bay.yaml = yaml;
  bay.text = text;
  bay.missing = missing;
  bay.faceOf = faceOf;
  bay.filled = filled;
  bay.noted = noted;
  bay.ticked = ticked;
  bay.without = without;
})();
