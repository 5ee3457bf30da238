/* Runs before the first paint: a remembered choice of light or dark goes on the root element. */
(function () {
  "use strict";
  document.documentElement.classList.remove("no-js");
  document.documentElement.classList.add("apart"); // each sheet of a pack at its own address
  try {
    var chosen = localStorage.getItem("loombook:scheme");
    if (chosen === "dark" || chosen === "light") {
      document.documentElement.setAttribute("data-scheme", chosen);
    }
  } catch (refused) {
    /* Storage may be switched off; the system's own choice then stands. */
  }
})();
