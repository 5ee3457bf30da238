// The rules that one record and the housings suffice for. Each says what its Python rule says; a test
// asks both of the same records. The page lists which rules these are.
(function () {
  "use strict";
  const shape = window.loombookShape, engine = window.loombookIdentify;
  const GROUND_POINTS = ["battery_negative", "body"], BANDS = ["-woofer", "-tweeter"];
  let data = null;

  function load(given) { data = given; }

  function fault(id, path, message, help, severity) {
    return { id: id, path: path, message: message, help: help, severity: severity, missing: false };
  }

  function list(value) { return Array.isArray(value) ? value : []; }

  // ---- a draft may lack anything: only what stands there is looked at -----------------------------
  function usable(items) {
    return list(items).map((item, index) => ({ item: item, index: index })).filter((one) => shape.isObject(one.item));
  }

  function site(plug, pin, path) {
    const joint = plug.housing ? "." : " ";
    return { plug: plug, pin: pin, path: path, cavity: String(pin.cavity), name: plug.id + joint + pin.cavity };
  }

  function sitesOf(record) {
    const sites = [];
    usable(record.plugs).forEach((plug) => usable(plug.item.pins).forEach(function (pin) {
      if (pin.item.cavity !== undefined) sites.push(site(plug.item, pin.item, ["plugs", plug.index, "pins", pin.index]));
    }));
    return sites;
  }

  function fuseSites(record) {
    return usable(record.fuse_positions).map(function (one) {
      const panel = { id: one.item.panel + " fuse", housing: "", unit: "fuse_panel" };
      return site(panel, Object.assign({}, one.item, { cavity: one.item.position }), ["fuse_positions", one.index]);
    });
  }

  function called(s) {
    const sign = { positive: " +", negative: " −" }[s.pin.leg] || "";
    return s.name + " (" + (s.pin.channel ? s.pin.channel + sign : data.short_functions[s.pin.function] || "?") + ")";
  }

  // ---- lines that claim the same of one car (coexistence.py) ----------------------------------------
  function excludes(first, second) {
    const any = list(first.options_any);
    return any.length > 0 && any.every((option) => list(second.options_none).indexOf(option) >= 0);
  }

  function canCoexist(a, b) {
    const first = a.only_if, second = b.only_if;
    if (!shape.isObject(first) || !shape.isObject(second)) return true;
    const trims = list(first.trims), others = list(second.trims);
    if (trims.length && others.length && !trims.some((trim) => others.indexOf(trim) >= 0)) return false;
    return !excludes(first, second) && !excludes(second, first);
  }

  function clashes(sites) {
    const out = [];
    sites.forEach((first, i) => sites.slice(i + 1).forEach(function (second) {
      if (canCoexist(first.pin, second.pin)) out.push([first, second]);
    }));
    return out;
  }

  function grouped(items, key) {
    const groups = new Map();
    items.forEach((item) => groups.set(key(item), (groups.get(key(item)) || []).concat(item)));
    return groups;
  }

  function pairsOf(sites) {
    const legs = sites.filter((s) => data.paired.indexOf(s.pin.function) >= 0 && s.pin.channel && s.pin.leg);
    return Array.from(grouped(legs, (s) => [s.pin.function, s.pin.channel, s.plug.unit].join("|")).values(), (found) => ({
      function: found[0].pin.function, channel: found[0].pin.channel, unit: String(found[0].plug.unit),
      positives: found.filter((s) => s.pin.leg === "positive"), negatives: found.filter((s) => s.pin.leg === "negative")
    }));
  }

  // ---- the rules ----------------------------------------------------------------------------------------
  function cavityUsedTwice(at) {
    const out = [];
    grouped(at.sites, (s) => s.plug.id + "." + s.cavity).forEach((sites) => clashes(sites).forEach(function (two) {
      out.push(fault("PIN101", two[1].path.concat("cavity"), "plug " + two[1].plug.id + ", cavity " + two[1].cavity +
        ' is described twice: first as ' + called(two[0]) + ", here as " + called(two[1]) + "; a terminal has one job",
        "correct the cavity of one entry, or add only_if with different trims to both", "stop"));
    }));
    return out;
  }

  function cavitiesOf(housing) {
    return [].concat.apply([], housing.rows).filter((name) => name !== null);
  }

  function cavityNotInHousing(at) {
    const out = [];
    usable(at.record.plugs).forEach(function (plug) {
      const housing = at.housings.get(plug.item.housing), named = [];
      if (!housing) return;
      const known = cavitiesOf(housing), path = ["plugs", plug.index];
      at.sites.filter((s) => s.plug === plug.item).forEach((s) => named.push([s.cavity, s.path.concat("cavity")]));
      list(plug.item.empty).forEach((cavity, index) => named.push([String(cavity), path.concat("empty", index)]));
      named.filter((one) => known.indexOf(one[0]) < 0).forEach((one) => out.push(fault("PIN102", one[1],
        'housing "' + housing.id + '" of plug "' + plug.item.id + '" has no cavity "' + one[0] + '": it has ' + known.length +
        ", from " + known[0] + " to " + known[known.length - 1] + "; the plug may be another one, or counted from the wrong corner",
        "correct the cavity, or name the housing that has it", "stop")));
    });
    return out;
  }

  function emptyCavityDescribed(at) {
    return at.sites.filter((s) => s.pin.function !== "not_used" || s.pin.wire !== undefined).map(function (s) {
      const housing = at.housings.get(s.plug.housing), empty = list(s.plug.empty).map(String).indexOf(s.cavity) >= 0;
      if (!empty && !(housing && housing.blocked.indexOf(s.cavity) >= 0)) return null;
      return fault("PIN103", s.path.concat("cavity"), s.plug.id + "." + s.cavity + " is " + (empty ? "listed as empty" : "moulded shut") +
        ", but is described as " + data.short_functions[s.pin.function] + ": one of the two is wrong",
        "look into plug " + s.plug.id + ", then delete this entry or correct empty", "fix");
    }).filter(Boolean);
  }

  function halfAPair(at) {
    return at.pairs.filter((pair) => !pair.positives.length !== !pair.negatives.length).map(function (pair) {
      const one = pair.positives.concat(pair.negatives)[0], missing = pair.positives.length ? "negative" : "positive";
      return fault("PIN104", one.path.concat("leg"), called(one) + " has no " + missing + " leg at the " + pair.unit.replace("_", " ") +
        ": a converter needs both, and chassis is no replacement for a driven leg",
        "add the pin with channel: " + pair.channel + " and leg: " + missing, "fix");
    });
  }

  function channelOnTwoPairs(at) {
    const out = [], byKey = new Map(at.pairs.map((pair) => [[pair.function, pair.unit, pair.channel].join("|"), pair]));
    at.pairs.forEach(function (pair) {
      clashes(pair.positives).concat(clashes(pair.negatives)).forEach((two) => out.push(fault("PIN105", two[1].path.concat("channel"),
        called(two[1]) + " is the same leg as " + called(two[0]) +
        ": two pairs of one channel are split by frequency, or one of them is another channel",
        "name them " + pair.channel + "-woofer and " + pair.channel + "-tweeter if the band is split, or correct one of the two", "fix")));
      BANDS.forEach(function (band) {
        const part = byKey.get([pair.function, pair.unit, pair.channel + band].join("|"));
        const ours = pair.positives.concat(pair.negatives)[0], theirs = part && part.positives.concat(part.negatives)[0];
        if (!part || !canCoexist(ours.pin, theirs.pin)) return;
        out.push(fault("PIN105", ours.path.concat("channel"), called(ours) + " is called full range, but " + called(theirs) +
          " is part of the same channel at the same unit: a pair of a split channel is not full range",
          "name it " + pair.channel + "-woofer or " + pair.channel + "-tweeter", "fix"));
      });
    });
    return out;
  }

  function readingSideMissing(at) {
    const used = at.measured.map((one) => one.reading.session);
    const plugs = usable(at.record.plugs).filter((one) => one.item.read_from === "unknown" && list(one.item.pins).length).map((one) =>
      fault("PIN106", ["plugs", one.index, "read_from"], 'nobody says which face plug "' + one.item.id +
        '" was counted on: from the other face every cavity number is mirrored, so no plan can be made from it',
        "look at two wires you can name, then choose the face you counted on", "stop"));
    return plugs.concat(usable(at.record.sessions).filter((one) => one.item.read_from === "unknown" && used.indexOf(one.item.id) >= 0).map((one) =>
      fault("PIN106", ["sessions", one.index, "read_from"], 'nobody says which face visit "' + one.item.id +
        '" counted on: its readings may belong to mirrored cavities and count for less', "choose the face you counted on", "warn")));
  }

  function nothing(path, kind, name, why) {
    return fault("PIN108", path, "there is no " + kind + ' "' + name + '": ' + why, "choose one that is there, or add it", "stop");
  }

  function noHousing(path, name, why) {
    if (name !== "unknown") return nothing(path, "housing", name, why);
    return fault("PIN108", path, "nobody knows which housing it is: " + why, "take it in hand and name its record, or make one", "stop");
  }

  function referenceToNothing(at) {
    const out = [], sessions = usable(at.record.sessions).map((one) => one.item.id);
    const plugs = usable(at.record.plugs), channels = usable(at.record.channels).map((one) => one.item.channel);
    plugs.forEach(function (plug) {
      const path = ["plugs", plug.index], housing = at.housings.get(plug.item.housing);
      if (!housing && plug.item.housing !== undefined) out.push(noHousing(path.concat("housing"), plug.item.housing, "it cannot be drawn"));
      list(housing && housing.mates_with).filter((mate) => mate !== "unknown" && !at.housings.has(mate)).forEach((mate) => out.push(nothing(path.concat("housing"),
        "housing", mate, 'housing "' + plug.item.housing + '" says that it mates with it')));
      usable(plug.item.look_alikes).forEach(function (one) {
        const place = path.concat("look_alikes", one.index), why = "nobody can look out for it";
        if (one.item.plug !== undefined && !plugs.some((other) => other.item.id === one.item.plug)) out.push(nothing(place.concat("plug"), "plug", one.item.plug, why));
        if (one.item.housing !== undefined && !at.housings.has(one.item.housing)) out.push(noHousing(place.concat("housing"), one.item.housing, why));
      });
    });
    at.measured.forEach(function (one) {
      const r = one.reading;
      if (r.session !== undefined && sessions.indexOf(r.session) < 0) out.push(nothing(one.path.concat("session"), "visit", r.session, "the reading has no date, meter or car"));
      if (!knownPoint(at, one, against(at, r))) out.push(nothing(one.path.concat("against"), "cavity", against(at, r), "the reading has no second point"));
    });
    const why = "nothing under `channels` says what it carries";
    at.sites.filter((s) => s.pin.channel !== undefined && channels.indexOf(s.pin.channel) < 0).forEach((s) =>
      out.push(nothing(s.path.concat("channel"), "channel", s.pin.channel, why)));
    usable(at.record.protected_sounds).filter((sound) => typeof sound.item === "object").forEach((sound) => list(sound.item.channels).forEach(function (channel, index) {
      if (channels.indexOf(channel) < 0) out.push(nothing(["protected_sounds", sound.index, "channels", index], "channel", channel, why));
    }));
    usable(at.record.resolutions).filter((one) => !at.sites.some((s) => s.name === one.item.pin)).forEach((one) =>
      out.push(nothing(["resolutions", one.index, "pin"], "pin", one.item.pin, "the resolution settles nothing")));
    return out;
  }

  function against(at, reading) {
    if (reading.against !== undefined && reading.against !== "") return String(reading.against);
    const session = usable(at.record.sessions).find((one) => one.item.id === reading.session);
    return (session && session.item.against) || "battery_negative";
  }

  function point(one, text) {
    const parts = text.split(".");
    return parts.length > 1 ? { plug: parts[0], cavity: parts[1] } : { plug: one.site.plug.id, cavity: text };
  }

  function knownPoint(at, one, text) {
    const to = point(one, text);
    if (GROUND_POINTS.indexOf(text) >= 0 || at.sites.some((s) => s.plug.id === to.plug && s.cavity === to.cavity)) return true;
    const plug = text.indexOf(".") >= 0 ? list(at.record.plugs).find((other) => shape.isObject(other) && other.id === to.plug) : one.site.plug;
    const housing = plug && at.housings.get(plug.housing);
    return Boolean(housing) && cavitiesOf(housing).indexOf(to.cavity) >= 0;
  }

  function matesOf(at, s) {
    if (data.paired.indexOf(s.pin.function) < 0) return [];
    return at.sites.filter((o) => o.pin.channel === s.pin.channel && o.pin.leg !== s.pin.leg);
  }

  // A figure as Python's :g writes it.
  function general(value) {
    const parts = value.toExponential(5).split("e"), power = Number(parts[1]);
    if (power >= -4 && power < 6) return String(Number(value.toPrecision(6)));
    return Number(parts[0]) + "e" + (power < 0 ? "-" : "+") + String(Math.abs(power)).padStart(2, "0");
  }

  function outside(value, limits, path) {
    if (typeof value !== "number" || (value >= limits[0] && value <= limits[1])) return [];
    return [fault("PIN110", path, general(value) + " " + limits[2] + " cannot be right here: at least " + general(limits[0]) +
      " and at most " + general(limits[1]) + " " + limits[2] + " is possible, and plans compute with it",
      "type the figure in " + limits[2] + "; look for a slipped point or a thousandfold", "fix")];
  }

  function isMate(at, one) {
    const text = against(at, one.reading), to = point(one, text), s = one.site;
    return GROUND_POINTS.indexOf(text) < 0 && at.sites.some((o) => o.plug.id === to.plug && o.cavity === to.cavity &&
      o.pin.channel === s.pin.channel && o.pin.leg !== s.pin.leg);
  }

  function valueImplausible(at) {
    let out = [];
    const limits = data.limits, power = shape.isObject(at.record.power) ? at.record.power : {};
    const amplifier = shape.isObject(at.record.factory_amplifier) ? at.record.factory_amplifier : {};
    const rail = typeof amplifier.rail_v === "number" ? amplifier.rail_v : null;
    at.measured.forEach(function (one) {
      const r = one.reading, pair = r.quantity === "ohm" && one.site.pin.function === "speaker" && isMate(at, one);
      const usual = pair ? limits.speaker_pair : limits.readings[r.quantity];
      const raised = rail !== null && r.quantity === "dc_v" && one.site.pin.function === "speaker";
      const most = raised ? [usual[0], Math.max(usual[1], rail), usual[2]] : usual;
      if (most) out = out.concat(outside(r.value, most, one.path.concat("value")));
      out = out.concat(outside(r.battery_v, limits.battery, one.path.concat("battery_v")));
    });
    usable(at.record.channels).forEach(function (one) {
      const path = ["channels", one.index], level = shape.isObject(one.item.level) ? one.item.level : {};
      out = out.concat(outside(one.item.speaker_ohm, limits.speaker_ohm, path.concat("speaker_ohm")),
        outside(one.item.delay_ms, limits.delay, path.concat("delay_ms")),
        outside(level.clean_max_v_rms, limits.clean_level, path.concat("level", "clean_max_v_rms")));
    });
    return out.concat(outside(power.supply_lead_m, limits.lead, ["power", "supply_lead_m"]),
      outside(power.ground_lead_m, limits.lead, ["power", "ground_lead_m"]));
  }

  function supplyOrGroundMissing(at) {
    const out = [], radio = shape.isObject(at.record.radio) ? at.record.radio : {};
    ["radio", "amplifier"].forEach(function (unit) {
      const sites = at.sites.filter((s) => s.plug.unit === unit), does = sites.map((s) => s.pin.function);
      if (!does.some((name) => data.paired.indexOf(name) >= 0) || (unit === "radio" && radio.data_wake === "yes")) return;
      const first = usable(at.record.plugs).find((plug) => plug.item.unit === unit), path = ["plugs", first.index, "pins"];
      [["supply", "constant", does.some((name) => data.supplies.indexOf(name) >= 0)], ["ground", "ground", does.indexOf("ground") >= 0]]
        .filter((one) => !one[2]).forEach((one) => out.push(fault("PIN112", path, "the " + unit + " has sound but no " + one[0] +
          " among its described pins: a plug, or a cavity of this one, was overlooked", "find it and add a pin with function: " + one[1], "warn")));
    });
    return out;
  }

  function repeated(kind, named) {
    const seen = [];
    return named.filter((one) => one[0] !== undefined && (seen.indexOf(one[0]) >= 0 || !seen.push(one[0]))).map((one) => fault("PIN117", one[1],
      "there are two " + kind + 's called "' + one[0] + '": what refers to it could mean either',
      "rename this " + kind + " and correct what refers to it", "stop"));
  }

  function nameUsedTwice(at) {
    const of = (key, name) => usable(at.record[key]).map((one) => [one.item[name], [key, one.index, name]]);
    const fuses = usable(at.record.fuse_positions).map((one) => [one.item.panel + " " + one.item.position, ["fuse_positions", one.index, "position"]]);
    return repeated("plug", of("plugs", "id")).concat(repeated("visit", of("sessions", "id")),
      repeated("channel", of("channels", "channel")), repeated("part", of("access", "name")),
      repeated("passage", of("passages", "name")), repeated("fuse position", fuses));
  }

  // ---- a reading that its pin cannot give: judged by the table of the page for unknown wires ----------
  function contradictions(at) {
    return [].concat.apply([], at.measured.map(function (one) {
      const said = judged(at, one), kinds = data.kinds.filter((kind) => kind.function === one.site.pin.function);
      if (said === null || !kinds.length) return [];
      const found = kinds.map((kind) => engine.judge(said, kind));
      if (!found.every((j) => j.outcome === "contradicted")) return [];
      return [fault("reading", one.path, called(one.site) + ": " + found[0].sentence,
        "read it again, or look whether the pin does something else", "warn")];
    }));
  }

  function judged(at, one) {
    const r = one.reading, text = against(at, r), to = point(one, text);
    const mate = matesOf(at, one.site).some((s) => s.plug.id === to.plug && s.cavity === to.cavity);
    const side = GROUND_POINTS.indexOf(text) >= 0 ? "ground" : mate ? "other_leg" : null;
    if (side === null || !shape.own(data.names.states, r.state) || !shape.own(data.names.quantities, r.quantity)) return null;
    if (typeof r.value !== "number" && r.value !== "open") return null;
    const number = (value) => typeof value === "number" ? value : null;
    return { state: r.state, quantity: r.quantity, value: number(r.value), against: side, battery: number(r.battery_v),
      load: r.load || "none", minutes: number(r.minutes) };
  }

  const RULES = [cavityUsedTwice, cavityNotInHousing, emptyCavityDescribed, halfAPair, channelOnTwoPairs, readingSideMissing,
    referenceToNothing, valueImplausible, supplyOrGroundMissing, nameUsedTwice, contradictions];

  // Whether a resolution set a reading at a place aside, by its visit or by who measured (set_aside.py).
  function isSetAside(record, place, reading) {
    const session = usable(record.sessions).find((one) => one.item.id === reading.session), who = session && session.item.by;
    return usable(record.resolutions).some((one) => one.item.pin === place &&
      list(one.item.retires).some((name) => name === reading.session || (who !== undefined && name === who)));
  }

  // What the rules find; `housings` maps an id to {id, rows, blocked, mates_with}, cavities as text.
  function ruleFindings(record, housings) {
    const sites = sitesOf(record), at = { record: record, housings: housings, sites: sites, pairs: pairsOf(sites) };
    at.measured = [].concat.apply([], sites.concat(fuseSites(record)).map((s) => usable(s.pin.readings).map((one) =>
      ({ site: s, reading: one.item, path: s.path.concat("readings", one.index) })))).filter((one) => !isSetAside(record, one.site.name, one.reading));
    return [].concat.apply([], RULES.map((rule) => rule(at)));
  }

  // ---- a housing (housing_inconsistent.py) --------------------------------------------------------------
  function housingFindings(record) {
    const out = [], seen = [], missing = (name, path) => fault("PIN119", path,
      'no row draws cavity "' + name + '": either the row or this entry is mistyped', "correct the name, or add the cavity to its row", "stop");
    list(record.rows).forEach((row, at) => list(row).forEach(function (name, column) {
      if (name === "_") return;
      if (seen.indexOf(String(name)) >= 0) out.push(fault("PIN119", ["rows", at, column], 'cavity "' + name +
        '" is drawn twice: a reader cannot tell which of the two is meant', "look at the housing and correct one of the two", "stop"));
      seen.push(String(name));
    }));
    list(record.blocked).forEach((name, index) => { if (seen.indexOf(String(name)) < 0) out.push(missing(name, ["blocked", index])); });
    const sized = new Set([].concat.apply([], usable(record.sizes).map((one) => list(one.item.cavities).map(String))));
    sized.forEach((name) => { if (seen.indexOf(name) < 0) out.push(missing(name, ["sizes"])); });
    const shifts = record.row_shift;
    if (Array.isArray(shifts) && shifts.length !== list(record.rows).length) out.push(fault("PIN119", ["row_shift"], "there are " + shifts.length +
      " row shifts for " + list(record.rows).length + " rows: nobody can tell which row is moved", "give one number for each row, 0 for a row that is not moved", "stop"));
    return out;
  }

  window.loombookRules = { load: load, ruleFindings: ruleFindings, housingFindings: housingFindings, canCoexist: canCoexist, cavitiesOf: cavitiesOf };
})();
