/* Small comforts. Every page answers without them. */
(function () {
  "use strict";
  var root = document.documentElement;

  function remember(key, value) {
    try {
      if (value === null) {
        localStorage.removeItem(key);
      } else {
        localStorage.setItem(key, value);
      }
    } catch (refused) {
      /* Without storage the choice lasts as long as the page. */
    }
  }

  function isDark() {
    var chosen = root.getAttribute("data-scheme");
    return chosen ? chosen === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  }

  function setUpSchemeSwitch(button) {
    function label() {
      button.textContent = isDark() ? "Light pages" : "Dark pages";
    }
    button.hidden = false;
    label();
    button.addEventListener("click", function () {
      var next = isDark() ? "light" : "dark";
      root.setAttribute("data-scheme", next);
      remember("loombook:scheme", next);
      label();
    });
  }

  /* Laid out as cards, a table is no table to some screen readers until it says so. */
  var roles = { TABLE: "table", THEAD: "rowgroup", TBODY: "rowgroup", TR: "row", TD: "cell" };
  function nameParts(table) {
    if (table.scrollWidth > table.clientWidth) {
      table.tabIndex = 0; // what scrolls sideways can be scrolled with keys
    }
    if (getComputedStyle(table).display === "table") {
      return;
    }
    [table].concat(Array.from(table.querySelectorAll("thead, tbody, tr, td, th"))).forEach(function (part) {
      var header = part.scope === "row" || part.scope === "rowgroup" ? "rowheader" : "columnheader";
      part.setAttribute("role", roles[part.tagName] || header);
    });
  }

  function openTarget() {
    var target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
    if (!target) { return; }
    var inside = target.matches("details") ? target : target.matches(".sheet") ? null : target.querySelector("details:not(.bay-whys)");
    var fold = target.closest("details");
    if (inside) { inside.open = true; }
    for (; fold; fold = fold.parentElement.closest("details")) { fold.open = true; }
    if (target.closest(".shut")) { target.closest(".shut").querySelector(".group-fold").click(); }
    target.scrollIntoView();
  }

  /* The cautions of a sheet or a plan as one line of danger that opens. */
  function foldCautions(box) {
    var many = box.querySelectorAll(":scope > p:not(.first-rule), .caution").length, button = document.createElement("button");
    function fold(shut) {
      box.classList.toggle("folded", shut);
      button.textContent = shut ? (many === 1 ? "Read it whole" : "Read all " + many + " cautions") : "Fold";
      button.setAttribute("aria-expanded", String(!shut));
    }
    button.type = "button";
    button.addEventListener("click", function () { fold(!box.classList.contains("folded")); });
    box.appendChild(button);
    fold(true);
  }

  if (matchMedia("(min-width: 60rem)").matches) { // beside the wide page's drawings there is room for them
    document.querySelectorAll("details.photos").forEach(function (fold) { fold.open = true; });
  }
  document.querySelectorAll(".sheet-cautions, :is(.plan-page, .sheet-cover) .cautions").forEach(foldCautions);
  document.querySelectorAll("[data-scheme-switch]").forEach(setUpSchemeSwitch);
  document.querySelectorAll("table").forEach(nameParts);
  addEventListener("hashchange", openTarget);
  openTarget();

  /* On paper the proofs of pins are as the reader left them; every other fold is open. */
  var opened = [];
  addEventListener("beforeprint", function () {
    opened = Array.prototype.slice.call(document.querySelectorAll("details:not([open])"));
    opened = opened.filter(function (fold) { return !fold.closest(".pins"); });
    opened.forEach(function (fold) { fold.open = true; });
  });
  addEventListener("afterprint", function () {
    opened.forEach(function (fold) { fold.open = false; });
    opened = [];
  });
})();
