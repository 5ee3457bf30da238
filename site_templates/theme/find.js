/* The search field in the head of every page: what it needs is fetched when somebody turns to it.
   The home page asks for it itself. Without scripts the field is not shown; the lists answer. */
(function () {
  "use strict";
  // What the field needs, and the folders and pages that belong to each of the five places.
  var SCRIPTS = []/*scripts*/, PLACES = []/*places*/;
  var field = document.getElementById("finder-field");
  if (!field) return;
  window.loombookRoot = document.querySelector(".lb-mark").getAttribute("href").replace(/index\.html$/, "");
  var asked = Boolean(document.getElementById("finder"));

  // One after another: each builds on those before it.
  function fetchAll(paths) {
    if (!paths.length) return;
    var script = document.createElement("script");
    script.src = window.loombookRoot + paths[0];
    script.onload = function () { fetchAll(paths.slice(1)); };
    document.head.appendChild(script);
  }

  function panel() {
    var box = document.createElement("div"), status = document.createElement("p");
    box.id = "finder";
    box.className = "finder finder-over";
    status.id = "finder-status";
    status.className = "finder-status";
    status.setAttribute("role", "status");
    box.appendChild(status);
    ["recent", "path", "answers"].forEach(function (name) {
      box.appendChild(document.createElement("div")).id = "finder-" + name;
    });
    var page = document.querySelector("main");
    page.insertBefore(box, page.firstChild);
  }

  function turnedTo() {
    if (asked) return;
    asked = true;
    panel();
    fetchAll(SCRIPTS);
  }

  field.addEventListener("focus", turnedTo);
  document.addEventListener("keydown", function (event) {
    var tag = event.target.tagName;
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (tag === "INPUT" || tag === "TEXTAREA" || tag === "SELECT" || event.target.isContentEditable) return;
    event.preventDefault();
    field.focus();
    field.select();
  });

  /* Which of the five places this page belongs to. */
  var here = location.pathname.split("/").slice(-2), name = here[1] || "index.html";
  document.querySelectorAll(".lb-nav a").forEach(function (link, at) {
    var of = PLACES[at].split(" ");
    var own = window.loombookRoot ? of.indexOf(here[0]) >= 0 : of.indexOf(name) >= 0 || link.getAttribute("href") === name;
    if (own) link.setAttribute("aria-current", link.href === location.href.split("#")[0] ? "page" : "true");
  });
})();
