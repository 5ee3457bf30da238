/* The bay sheet filled in on a phone. What is typed is kept per page and state of its plan, one
   entry of the store each; what was typed for another state is shown as that, never applied:
   loombook:bay:<book>/<page>:<state> =
     {of, on, sheet, session, lines: {test: {value, also, passed, ask}}, notes: {at: {note, photos: [name]}},
     ticked: {step: "yes" or "no"}}, the last as the boxes of the steps stood when it was kept
   loombook:bay-me = who measures and with which meter, asked once. */
(function () {
  "use strict";
  var element = window.loombookElement, bay = window.loombookBay, judging = window.loombookJudge;
  var holder = document.querySelector("[data-sheet]");
  if (!holder || !bay) {
    return;
  }
  var ME = "loombook:bay-me", MINE = ["by", "impedance", "against"];
  var key = "loombook:bay:" + holder.getAttribute("data-ticks");
  var page = key.slice(0, key.lastIndexOf(":") + 1);
  var sheet = JSON.parse(holder.getAttribute("data-sheet"));
  var asks = [], store = window.loombookStore(), kept, panel, shown;

  function load(name) {
    try {
      var found = JSON.parse(store.getItem(name));
      return found && found.lines && found.session && found.sheet ? found : null;
    } catch (broken) {
      return null; // not written by this page
    }
  }

  /* The steps that are ticked, and those that the book had as done and that are ticked no more. */
  function steps() {
    var found = {};
    document.querySelectorAll("li[data-lines]").forEach(function (row) {
      var box = row.querySelector("input[type=checkbox]");
      if (box.checked || box.defaultChecked) {
        found[window.loombookStepName(row)] = box.checked ? "yes" : "no";
      }
    });
    return found;
  }

  function keep() {
    kept.ticked = steps();
    kept.on = today();
    kept.of = asks.length;
    if (store) {
      try {
        store.setItem(key, JSON.stringify(kept));
        store.setItem(ME, JSON.stringify(MINE.reduce(function (me, name) {
          me[name] = kept.session[name] || "";
          return me;
        }, {})));
      } catch (full) {
        store = null;
        refuse();
      }
    }
    count();
  }

  function today() {
    var now = new Date();
    return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
  }

  function fresh() {
    var me = {};
    try {
      me = JSON.parse(store.getItem(ME)) || {};
    } catch (none) {
      /* The first sheet of this browser. */
    }
    return {
      sheet: sheet, lines: {}, notes: {},
      session: Object.assign({ date: today() }, me, sheet.car)
    };
  }

  /* -- small parts ------------------------------------------------------------------------------ */

  /* What is one of many that look alike says to the ear of which line it is. */
  function named(node, words) {
    node.setAttribute("aria-label", words);
    return node;
  }

  function button(words, work) {
    var made = element("button", words, "button");
    made.type = "button";
    made.addEventListener("click", work);
    return made;
  }

  function input(label, value, mode, changed) {
    var wrap = element("label", "", "bay-field"), field = element("input");
    field.type = "text";
    field.inputMode = mode;
    field.autocomplete = "off";
    field.value = value === undefined ? "" : value;
    field.addEventListener("input", function () { changed(field.value); });
    wrap.append(element("span", label), field);
    return wrap;
  }

  function choice(label, value, options, changed) {
    var wrap = element("label", "", "bay-field"), field = element("select");
    options.forEach(function (option) {
      var made = element("option", option[1]);
      made.value = option[0];
      field.appendChild(made);
    });
    field.value = value || "";
    field.addEventListener("change", function () { changed(field.value); });
    wrap.append(element("span", label), field);
    return wrap;
  }

  function note(name, words) {
    var made = element("div", "", "tick-note " + name);
    made.setAttribute("role", "status");
    made.appendChild(element("p", words));
    holder.parentNode.insertBefore(made, holder);
    return made;
  }

  function refuse() {
    if (!document.querySelector(".bay-refused")) {
      note("bay-refused", "This browser keeps no figures: they last until you leave this page. Export them before.");
    }
  }

  /* -- one line of the sheet ------------------------------------------------------------------------ */

  var ALSO = {
    battery_v: ["Battery, V", "decimal"], current_a: ["Clamp, A", "decimal"], minutes: ["Minutes", "decimal"],
    tone_hz: ["Tone, Hz", "decimal"], volume_step: ["Volume step", "numeric"]
  };

  function lineOf(ask) {
    var line = kept.lines[ask.test];
    if (!line) {
      line = kept.lines[ask.test] = { value: "", also: {}, passed: "", ask: ask };
    }
    line.ask = ask; // of this state of the record
    return line;
  }

  function tidy(ask) {
    var line = kept.lines[ask.test];
    var also = Object.keys(line.also).some(function (name) { return line.also[name]; });
    if (!line.value && !line.passed && !also) {
      delete kept.lines[ask.test];
    }
  }

  function changeOf(ask, change) {
    return function (value) {
      change(lineOf(ask), value);
      tidy(ask);
      keep();
    };
  }

  function figureField(ask, fill) {
    var old = kept.lines[ask.test] || { value: "", also: {} };
    var mark = element("output", "", "bay-mark"), lacking = element("small", "", "bay-lacking");
    var field = input("Reads, " + bay.unitOf(ask), old.value, "decimal", changeOf(ask, function (line, value) {
      line.value = value;
      judge();
    }));
    var box = field.querySelector("input");
    function judge() {
      var line = kept.lines[ask.test], found = bay.verdict(box.value, ask, bay.besideOf(line));
      mark.textContent = (found.mark + " " + found.words).trim();
      mark.className = "bay-mark bay-" + found.state;
      var missing = line && box.value && ask.facts ? bay.without(line) : [];
      lacking.textContent = missing.length ? "counts as evidence with " + missing.map(function (name) {
        return ALSO[name][0].toLowerCase().split(",")[0];
      }).join(" and ") : "";
    }
    function type(value) {
      box.value = value;
      box.dispatchEvent(new Event("input"));
    }
    box.setAttribute("aria-label", ask.test + " reads, " + bay.unitOf(ask));
    fill.append(field);
    if (ask.quantity === "ohm") {
      fill.append(named(button("open", function () { type("open"); }), "open, " + ask.test));
    } else if (ask.quantity === "dc_v" && (ask.low === null || judging.pair(ask.low)[0] === 0 && judging.pair(ask.low)[1] <= 0)) {
      // A phone's decimal keys may have no minus.
      fill.append(named(button("±", function () {
        type(/^[-−]/.test(box.value) ? box.value.slice(1) : "-" + box.value);
      }), "± turn the sign, " + ask.test));
    }
    fill.append(mark);
    (ask.also || []).forEach(function (name) {
      fill.append(input(ALSO[name][0], (old.also || {})[name], ALSO[name][1], changeOf(ask, function (line, value) {
        line.also[name] = value;
        judge();
      })));
    });
    fill.append(lacking);
    judge();
  }

  function addFields(row) {
    var ask = bay.askOf(row), fill = element("div", "", "bay-fill");
    asks.push(ask);
    if (ask.quantity === "check") {
      fill.append(choice("Came out as it should", (kept.lines[ask.test] || {}).passed, [
        ["", "not done"], ["yes", "✓ yes"], ["no", "✗ no"]
      ], changeOf(ask, function (line, value) { line.passed = value; })));
    } else {
      figureField(ask, fill);
    }
    row.querySelector(".reads").appendChild(fill);
  }

  /* -- the visit, and what comes out ---------------------------------------------------------------- */

  function sessionFields() {
    var fields = element("fieldset", "", "bay-session");
    function change(name) {
      return function (value) {
        kept.session[name] = value;
        keep();
      };
    }
    fields.append(element("legend", "Who measures, on which car: once for the whole sheet"));
    [
      ["by", "By (shop or handle)", "text"], ["date", "Date, YYYY-MM-DD", "text"],
      ["tag", "Car tag, no chassis number", "text"],
      ["year", "Model year", "numeric"], ["built", "Built, YYYY-MM", "text"], ["trim", "Trim", "text"],
      ["impedance", "Meter, MΩ", "decimal"]
    ].forEach(function (one) {
      var field = input(one[1], kept.session[one[0]], one[2], change(one[0]));
      field.querySelector("input").name = "bay-" + one[0];
      fields.append(field);
    });
    fields.append(faceField(), choice("Other probe on", kept.session.against || "battery_negative", [
      ["battery_negative", "battery negative"], ["body", "body"]
    ], change("against")));
    return fields;
  }

  /* Whose numbers the readings have. Counting for oneself turns them, so it is asked once more. */
  function faceField() {
    var words = sheet.faces, asked = element("p", "", "bay-asked");
    var wrap = choice("Cavities by", bay.faceOf(kept.session), [
      ["moulded", "numbers of this sheet, or on the housing"],
      ["wire_side", "own count, " + words.wire_side],
      ["mating_side", "own count, " + words.mating_side],
      ["unknown", "own count, face not known"]
    ], ask), field = wrap.querySelector("select");
    function settle(face) {
      kept.session.counted_on = face === "moulded" ? "" : face;
      field.value = face;
      asked.remove();
      keep();
    }
    function ask(face) {
      settle("moulded"); // until it is said
      if (face === "moulded") {
        return;
      }
      field.value = face;
      asked.replaceChildren(element("span", asking(face)), button("Yes, I counted", function () { settle(face); }),
        button("No, by the numbers of this sheet", function () { settle("moulded"); }));
      wrap.after(asked);
      asked.querySelector("button").focus();
    }
    field.name = "bay-read_from";
    return wrap;
  }

  function asking(face) {
    var words = sheet.faces;
    if (face === "unknown") {
      return "Readings of an unknown face count for less. Did you count for yourself, not by the numbers of this sheet? ";
    }
    return "Did you count every cavity yourself, " + words[face] + ", with the latch at the edge of the drawing? " +
      "Then where the plug is drawn and counted " + words[face === "wire_side" ? "mating_side" : "wire_side"] +
      ", each number is turned to the cavity in that place. ";
  }

  function say(words) {
    shown.textContent = words;
  }

  /* The YAML, or null after saying what the visit still lacks. */
  function ready(what) {
    var lacking = bay.missing(what.session);
    if (what === kept) {
      kept.ticked = steps();
    }
    if (!bay.filled(what).length && !bay.noted(what).length && !bay.ticked(what).length) {
      say("Nothing is filled in yet.");
      return null;
    }
    if (lacking.length) {
      say("Still missing: " + lacking.map(function (need) { return need[1]; }).join(", ") + ".");
      var first = panel.querySelector("[name='bay-" + lacking[0][0] + "']");
      if (what === kept && first) {
        first.focus();
      }
      return null;
    }
    return bay.yaml(what);
  }

  function nameOf(what) {
    return "bay-sheet-" + (what.sheet.job || what.sheet.vehicle) + "-" + what.session.date + ".yaml";
  }

  function save(blob, name) {
    var link = element("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(function () { URL.revokeObjectURL(link.href); }, 60000);
    say("Saved as " + name + ". At the desk: loombook evidence add " + name);
  }

  function download(what) {
    var yaml = ready(what), names = photosOf(what), name = nameOf(what);
    if (yaml === null) {
      return;
    }
    if (!names.length) {
      save(new Blob([yaml], { type: "application/yaml" }), name);
      return;
    }
    Promise.all(names.map(fetched)).then(function (files) {
      var sheetFile = { name: name, bytes: new TextEncoder().encode(yaml) };
      save(window.loombookPhotos.zip([sheetFile].concat(files)), name.replace(/yaml$/, "zip"));
    }, function (lost) {
      say(lost.message + " Take it again, or remove it where it was taken.");
    });
  }

  function photosOf(what) {
    return bay.noted(what).map(function (note) { return note.photo; }).filter(Boolean);
  }

  function fetched(name) {
    return window.loombookPhotos.get(key + "/" + name).then(function (blob) {
      if (!blob) {
        throw new Error("This browser has lost the photo " + name + ".");
      }
      return blob.arrayBuffer();
    }).then(function (content) { return { name: name, bytes: new Uint8Array(content) }; });
  }

  function copy(words, done) {
    var copied = navigator.clipboard ? navigator.clipboard.writeText(words) : Promise.reject();
    copied.then(function () { say(done); }, function () {
      var area = panel.querySelector("textarea") || element("textarea");
      area.value = words;
      area.readOnly = true;
      area.setAttribute("aria-label", "The sheet, to copy by hand");
      panel.appendChild(area);
      area.select();
      say("This browser does not copy by itself: the text is below, chosen to be copied.");
    });
  }

  function share() {
    var yaml = ready(kept), file;
    if (yaml === null) {
      return;
    }
    file = new File([yaml], nameOf(kept).replace(/yaml$/, "txt"), { type: "text/plain" });
    var whole = navigator.canShare && navigator.canShare({ files: [file] });
    navigator.share(whole ? { files: [file] } : { title: nameOf(kept), text: yaml }).catch(function () {
      say("Not shared.");
    });
  }

  function clear() {
    var asked = element("p", "", "bay-sure");
    if (panel.querySelector(".bay-sure")) {
      return;
    }
    asked.append(element("span", "Clear every figure typed on this sheet? "), button("Yes, clear", function () {
      if (store) {
        store.removeItem(key);
      }
      photosOf(kept).forEach(function (name) { window.loombookPhotos.drop(key + "/" + name); });
      kept = fresh();
      rebuild();
      say("Cleared.");
    }), button("Keep", function () { asked.remove(); }));
    panel.appendChild(asked);
    asked.querySelector("button").focus();
  }

  function count() {
    var filled = bay.filled(kept), out = filled.filter(function (pair) {
      var line = pair[0], state = bay.verdict(line.value || "", line.ask, bay.besideOf(line)).state;
      return line.passed === "no" || state === "low" || state === "high";
    }).length;
    panel.querySelector(".bay-count").textContent = filled.length + " of " + asks.length + " filled" +
      (out ? ", " + out + " out of band" : "");
  }

  function makePanel() {
    var buttons = element("p", "", "bay-buttons");
    panel = element("div", "", "bay-panel");
    shown = element("p", "", "bay-said");
    shown.setAttribute("role", "status");
    buttons.append(
      button("Download evidence", function () { download(kept); }),
      button("Copy evidence", function () {
        var yaml = ready(kept);
        if (yaml !== null) {
          copy(yaml, "Copied. Save it as " + nameOf(kept) + ".");
        }
      }),
      button("Copy as text", function () { copy(bay.text(kept), "Copied as text."); })
    );
    if (navigator.share) {
      buttons.append(button("Share", share));
    }
    buttons.append(button("Clear", clear));
    panel.append(sessionFields(), element("p", "", "bay-count"), buttons, shown);
  }

  function rebuild() {
    var old = panel;
    asks = [];
    document.querySelectorAll(".bay-fill").forEach(function (fill) { fill.remove(); });
    makePanel();
    if (old) {
      old.replaceWith(panel);
    } else {
      holder.parentNode.insertBefore(panel, holder);
    }
    holder.querySelectorAll("[data-ask]").forEach(addFields);
    count();
  }

  function showEarlier(name) {
    var then = load(name);
    var made = note("bay-earlier", "Typed for an earlier state of this plan, " + then.on + ": " +
      bay.filled(then).length + " of " + then.of + " lines. They are not applied here.");
    made.append(button("Download them", function () { download(then); }), button("Clear them", function () {
      store.removeItem(name);
      made.remove();
    }));
  }

  kept = (store && load(key)) || fresh();
  kept.sheet = sheet;
  kept.notes = kept.notes || {}; // typed before there were any
  window.loombookSheet = {
    key: key, name: sheet.job || sheet.vehicle, keep: keep, notes: function () { return kept.notes; }
  };
  rebuild();
  if (!store) {
    refuse();
    return;
  }
  Object.keys(store).filter(function (name) {
    return name.indexOf(page) === 0 && name !== key && load(name);
  }).forEach(showEarlier);
  addEventListener("storage", function (event) {
    if (event.key === key) { // typed in another tab
      kept = load(key) || fresh();
      rebuild();
    }
  });
})();
