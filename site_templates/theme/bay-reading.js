/* A figure as it is typed in the bay, and whether it lies in its band. No page, no store.
   `ask` is a line of the sheet: {test, quantity, unit, low, high, span, facts, also}. */
window.loombookBay = (function () {
  "use strict";

  /* Where a band starts at 1000 ohms the sheet prints kilohms, and so does the field. */
  function inThousands(ask) {
    return ask.unit === "Ω" && ask.low !== null && ask.low >= 1000;
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
    if (/^(open|ol)$/i.test(text.trim())) {
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

  /* "in", "low", "high", or "none" for a line without a band. Bounds belong to the band. */
  function place(found, ask) {
    if (ask.low === null && ask.high === null) {
      return "none";
    }
    if (found.kind === "open") {
      return ask.high === null ? "in" : "high";
    }
    if (ask.low !== null && found.value < ask.low) {
      return "low";
    }
    return ask.high !== null && found.value > ask.high ? "high" : "in";
  }

  var WORDS = {
    "in": ["✓", "in band"], low: ["✗", "too low"], high: ["✗", "too high"],
    none: ["•", "noted"], slip: ["?", ""], empty: ["", ""]
  };

  /* What is said beside the field: {state, mark, words}; never by colour alone. */
  function verdict(text, ask) {
    var found = read(text, ask);
    var state = found.kind === "open" || found.kind === "value" ? place(found, ask) : found.kind;
    return { state: state, mark: WORDS[state][0], words: found.words || WORDS[state][1] };
  }

  return { read: read, verdict: verdict, numberOf: numberOf, unitOf: unitOf };
})();
