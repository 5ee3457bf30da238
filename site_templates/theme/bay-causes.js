/* What a line that failed may have, and what to read next: worked out when the site was built, so
   that it is there without a signal. {texts, lines: {test: {low|high|none: [[do, where, …], more, next]}}} */
window.loombookCauses = (function () {
  "use strict";
  var element = window.loombookElement, bay = window.loombookBay;
  var holder = document.querySelector("[data-causes]");
  var job = holder ? JSON.parse(holder.getAttribute("data-sheet")).job : "";
  var known = holder ? JSON.parse(holder.getAttribute("data-causes")) : { texts: [], lines: {} };

  /* Which way a line failed: a check has one way. */
  function wayOf(ask, fields, battery) {
    return ask.quantity === "check" ? "none" : bay.verdict(fields[0].value, ask, battery).state;
  }

  function listOf(numbers) {
    var list = element("ol");
    for (var at = 0; at < numbers.length; at += 2) {
      var item = element("li", known.texts[numbers[at]]);
      item.append(element("small", known.texts[numbers[at + 1]]));
      list.append(item);
    }
    return list;
  }

  /* Of a pin of the car no joint of ours is the cause: its record is wrong, or the wrong pin was read. */
  function unknown(ask) {
    return ask.facts
      ? "The car reads otherwise than its record. Count the cavity again and read again; if it stays, join nothing to it, " +
        "bring the reading in, and have the job planned anew."
      : "Nothing of this circuit makes it fail by itself. Read it again; then look for what the line names.";
  }

  function block(ask, fields, battery) {
    var made = element("div", "", "bay-causes"), found = (known.lines[ask.test] || {})[wayOf(ask, fields, battery)];
    made.setAttribute("role", "status");
    if (!found) {
      made.append(element("p", unknown(ask)));
      return made;
    }
    made.append(element("p", found[0].length > 2 ? "Any one of these makes it fail, the likeliest first:" : "This makes it fail:"), listOf(found[0]));
    if (found[1]) {
      made.append(element("p", found[1] + " more, less likely: at the desk, loombook comeback " + job + " --line " + ask.test));
    }
    if (found[2] >= 0) {
      made.append(element("p", "Read next, to tell them apart: " + known.texts[found[2]], "bay-next-reading"));
    }
    return made;
  }

  return { block: block };
})();
