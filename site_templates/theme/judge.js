/* Where a figure lies in its band: builder/proof/band.py in JavaScript, asked by every page that
   judges a reading. A limit is [share, offset], share x battery volts + offset, or null, as the
   table of signatures and the lines of a bay sheet give it. A test asks both the same. */
window.loombookJudge = (function () {
  "use strict";
  var TINY = 1e-9;

  /* A sheet that was filled in before limits moved with the battery holds plain numbers. */
  function pair(bound) {
    return typeof bound === "number" ? [0, bound] : bound;
  }

  function moves(low, high) {
    return [pair(low), pair(high)].some(function (bound) { return bound !== null && bound[0] !== 0; });
  }

  function limitAt(bound, battery) {
    return pair(bound)[0] * battery + pair(bound)[1];
  }

  /* "in", "low", "high", "none" for no band, "unjudged" where the battery is wanted and not read.
     `value` null is an open circuit, above every limit; `battery` null was not read. */
  function whereIn(low, high, value, battery) {
    var number = value === null ? Infinity : value;
    if (low === null && high === null) {
      return "none";
    }
    if (moves(low, high) && battery === null) {
      return "unjudged";
    }
    if (low !== null && number < limitAt(low, battery || 0) - TINY) {
      return "low";
    }
    return high !== null && number > limitAt(high, battery || 0) + TINY ? "high" : "in";
  }

  return { whereIn: whereIn, moves: moves, limitAt: limitAt, pair: pair };
})();
