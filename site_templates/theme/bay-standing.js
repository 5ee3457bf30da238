/* How far the job is, for the bar of bay mode: what the book knew when the site was built, and what
   was read on this phone since. {begun, names: {state: word}, passed: [test], failed: [test]} */
window.loombookStanding = (function () {
  "use strict";
  var holder = document.querySelector("[data-standing]");
  var known = holder ? JSON.parse(holder.getAttribute("data-standing")) : null;

  function has(list, ask) {
    return list.indexOf(ask.test) >= 0;
  }

  /* What a line is: as read here, else as the book had it. `made` has the screens' own `state`. */
  function lineOf(screen, made) {
    var here = made.state(screen);
    if (here !== "open") {
      return here;
    }
    return has(known.failed, screen.ask) ? "failed" : has(known.passed, screen.ask) ? "read" : "open";
  }

  /* "Begun: 12 of 47 read, 2 failed". */
  function words(screens, made) {
    var lines, failed, open;
    if (!known) {
      return "";
    }
    lines = screens.filter(function (each) { return each.ask; }).map(function (each) { return lineOf(each, made); });
    failed = lines.filter(function (each) { return each === "failed"; }).length;
    open = lines.filter(function (each) { return each === "open"; }).length;
    return known.names[failed ? "failing" : open ? known.begun ? "begun" : "planned" : "done"] + ": " +
      (lines.length - open) + " of " + lines.length + " read" + (failed ? ", " + failed + " failed" : "");
  }

  return { words: words };
})();
