/* A figure as it is typed in the bay, and whether it lies in its band. No page, no store.
   `ask` is a line of the sheet: {test, quantity, unit, low, high, span, facts, also}. */
window.loombookBay = (function () {
  "use strict";
  var judge = window.loombookJudge;

  /* Where a band starts at 1000 ohms the sheet prints kilohms, and so does the field. */
  function inThousands(ask) {
    return ask.unit === "Ω" && ask.low !== null && judge.pair(ask.low)[1] >= 1000;
  }

  function unitOf(ask) {
    return inThousands(ask) ? "kΩ" : ask.unit;
  }

  /* The number a text states, with point or comma; null for anything else. */
  function numberOf(text, thousands) {
    var plain = text.trim().replace(/[−–]/g, "-").replace(",", ".");
    return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain + (thousands ? "e3" : "")) : null;
  }

  /* {kind: "empty"} | {kind: "slip", words} | {kind: "open"} | {kind: "value", value} */
  function read(text, ask) {
    var value;
    if (!text.trim()) {
      return { kind: "empty" };
    }
    if (/^(open|ol|0l|o\.l\.?|o\/l|over range|overload|inf|∞|1 \.)$/i.test(text.trim())) {
      return ask.quantity === "ohm" ? { kind: "open" } : slip("only ohms can be open");
    }
    value = numberOf(text, inThousands(ask));
    if (value === null) {
      return slip("no number: type one such as 12.4");
    }
    if (ask.span && (value < ask.span[0] || value > ask.span[1])) {
      return slip("cannot be: look for a slipped decimal point");
    }
    return { kind: "value", value: value };
  }

  function slip(words) {
    return { kind: "slip", words: words };
  }

  /* Whether what passes moves with the battery, so that its volts are typed beside the figure. */
  function moves(ask) {
    return judge.moves(ask.low, ask.high);
  }

  var WORDS = {
    "in": ["✓", "in band"], low: ["✗", "too low"], high: ["✗", "too high"],
    none: ["•", "noted"], unjudged: ["?", "type the battery's volts beside it"],
    slip: ["?", ""], empty: ["", ""]
  };

  /* The battery's volts that a text states; null for none, and for what no car's battery reads. */
  function batteryOf(text) {
    var volts = numberOf(text || "", false);
    return volts !== null && volts > 0 && volts <= 60 ? volts : null;
  }

  /* The amperes that a text states; null for none, and for what no clamp on a car reads. */
  function currentOf(text) {
    var amperes = numberOf(text || "", false);
    return amperes !== null && amperes > 0 && amperes <= 1000 ? amperes : null;
  }

  /* The name of what is typed beside a figure to judge it: of volts over amperes the amperes. */
  function besideName(ask) {
    return ask.mohm ? "current_a" : "battery_v";
  }

  /* What was typed beside a line's figure, "" for nothing. */
  function besideOf(line) {
    return (line && line.also && line.also[besideName(line.ask)]) || "";
  }

  /* Volts over amperes: its milliohms are said with the verdict. */
  function byCurrent(volts, ask, amperes) {
    var state = amperes === null ? "unjudged" : judge.whereIn(null, [ask.mohm / 1000, 0], volts, amperes);
    var words = state === "unjudged"
      ? "type the amperes beside it"
      : (1000 * volts / amperes).toFixed(1) + " mΩ, " + WORDS[state][1];
    return { state: state, mark: WORDS[state][0], words: words };
  }

  /* What is said beside the field: {state, mark, words}; never by colour alone. `beside` is what
     was typed for the battery's volts, or for the amperes where the line asks for them; "" for nothing. */
  function verdict(text, ask, beside) {
    var found = read(text, ask), state = found.kind;
    if (state === "value" && ask.mohm) {
      return byCurrent(found.value, ask, currentOf(beside));
    }
    if (state === "open" || state === "value") {
      state = judge.whereIn(ask.low, ask.high, state === "open" ? null : found.value, batteryOf(beside));
    }
    return { state: state, mark: WORDS[state][0], words: found.words || WORDS[state][1] };
  }

  /* What a row asks: what all rows of its group ask, its own, and its name, which stands in it. */
  function askOf(row) {
    var alike = JSON.parse(row.parentNode.getAttribute("data-alike"));
    var own = JSON.parse(row.getAttribute("data-ask"));
    var ask = Object.assign({ test: row.querySelector(".test-id").textContent }, alike, own);
    if (alike.facts) {
      ask.facts = Object.assign({}, alike.facts, own.facts);
    }
    return ask;
  }

  return { askOf: askOf, read: read, verdict: verdict, numberOf: numberOf, unitOf: unitOf, moves: moves, batteryOf: batteryOf, currentOf: currentOf, besideName: besideName, besideOf: besideOf };
})();
