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
      /* Without storage a tick lasts as long as the page. */
    }
  }

  function recall(key) {
    try {
      return localStorage.getItem(key);
    } catch (refused) {
      return null;
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

  /* Ticks belong to one state of one record: its mark changes when the record changes. */
  function setUpTicks(list) {
    var prefix = "loombook:tick:" + list.getAttribute("data-ticks") + ":";
    list.querySelectorAll("input[type=checkbox]").forEach(function (box) {
      box.checked = recall(prefix + box.id) === "1";
      box.addEventListener("change", function () {
        remember(prefix + box.id, box.checked ? "1" : null);
      });
    });
  }

  function openTarget() {
    var target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
    var fold = target && target.querySelector("details");
    if (fold) {
      fold.open = true;
    }
  }

  document.querySelectorAll("[data-scheme-switch]").forEach(setUpSchemeSwitch);
  document.querySelectorAll("[data-ticks]").forEach(setUpTicks);
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
