/* Long sheets fold by their groups: what is to be done now is open, the rest says how much it is.
   In the bay, on paper and without this script everything stands there. A link into a group opens it,
   as it opens every fold (pages.js). */
(function () {
  "use strict";
  var MOST_OPEN = 12; // rows that a sheet shows without folds: some four screens of a phone

  function rowsOf(group) {
    return group.querySelectorAll(group.matches("table") ? "tr[data-ask]" : "ol.work-steps > li");
  }

  function titleOf(group) {
    return group.querySelector("caption, h3, h4");
  }

  function words(group) {
    if (!group.matches(".step-group, table.bay")) { return ""; }
    var many = rowsOf(group).length, what = group.matches("table") ? "reading" : "step";
    return many + " " + what + (many === 1 ? "" : "s");
  }

  function fold(group, shut) {
    group.classList.toggle("shut", shut);
    group.querySelector("button.group-fold").setAttribute("aria-expanded", String(!shut));
  }

  /* The title becomes a button; what stands beside it, a care of a whole group, folds with the rows. */
  function giveButton(group) {
    var title = titleOf(group), button = document.createElement("button"), many = document.createElement("small");
    Array.prototype.slice.call(title.childNodes).forEach(function (node) {
      if (!node.matches || !node.matches("small")) { button.appendChild(node); }
    });
    many.textContent = " " + words(group);
    button.appendChild(many);
    button.type = "button";
    button.className = "group-fold";
    button.addEventListener("click", function () { fold(group, !group.classList.contains("shut")); });
    place(title).prepend(button);
  }

  /* In a table that says by roles that it is one, a button stands in a cell. */
  function place(title) {
    if (title.tagName !== "CAPTION") { return title; }
    return ["row", "cell"].reduce(function (into, role) {
      var span = document.createElement("span");
      span.setAttribute("role", role);
      into.prepend(span);
      return span;
    }, title);
  }

  function named(group) {
    var title = titleOf(group);
    return title && title.firstChild && !(title.firstChild.matches && title.firstChild.matches("small")) &&
      title.firstChild.textContent.trim();
  }

  function left(group) {
    return Array.prototype.some.call(rowsOf(group), function (row) { return !row.querySelector("input").checked; });
  }

  function foldAllBut(now, groups) {
    groups.forEach(giveButton);
    groups.forEach(function (group) { fold(group, group !== now && !group.querySelector(":target")); });
  }

  function foldSheet(groups) {
    var many = groups.reduce(function (sum, group) { return sum + rowsOf(group).length; }, 0);
    if (groups.length > 1 && many > MOST_OPEN) { foldAllBut(groups.filter(left)[0] || groups[0], groups); }
  }

  document.querySelectorAll("[data-ticks]").forEach(function (sheet) {
    var groups = Array.prototype.slice.call(sheet.querySelectorAll(".step-group, table.bay"));
    foldSheet(groups.filter(named));
  });
  document.querySelectorAll(".wiring-pieces").forEach(function (drawn) {
    var pieces = Array.prototype.slice.call(drawn.querySelectorAll(".wiring-piece"));
    if (pieces.length > 2) { foldAllBut(pieces[0], pieces); }
  });
  document.querySelectorAll(".sheet").forEach(function (sheet) {
    var parts = Array.prototype.slice.call(sheet.querySelectorAll(".sheet-part"));
    if (parts.length > 1) { foldAllBut(parts[0], parts); }
  });
})();
