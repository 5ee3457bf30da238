/* Ticks are kept per page and state of its plan: what was ticked for another state is shown as
   that, and never applied. What the book knew as done when the page was built is ticked from the
   start; a tick taken off here stays off: `off`. One entry of the store a page and state:
   loombook:ticks:<book>/<page>:<state> = {of: boxes, on: date, ticked: {box: its words}, off: {box: 1}} */
/* The browser's store, or null when it keeps nothing: then what is typed lasts for this visit. */
window.loombookStore = function () {
  "use strict";
  try {
    localStorage.setItem("loombook:probe", "1");
    localStorage.removeItem("loombook:probe");
    return localStorage;
  } catch (refused) {
    return null;
  }
};

/* A new element with words and a class, for every script of a sheet. */
window.loombookElement = function (tag, words, name) {
  "use strict";
  var made = document.createElement(tag);
  made.textContent = words || "";
  if (name) {
    made.className = name;
  }
  return made;
};

/* What a step is called in notes and ticks: its number and the beginning of its words. */
window.loombookStepName = function (row) {
  "use strict";
  var words = row.querySelector(".what").textContent.replace(/\s+/g, " ").trim();
  return "step " + words.replace(/^(\d+) /, "$1: ").slice(0, 120).trim();
};

(function () {
  "use strict";
  var element = window.loombookElement;
  var lists = Array.prototype.slice.call(document.querySelectorAll("[data-ticks]"));
  if (!lists.length) {
    return;
  }
  var boxes = [];
  lists.forEach(function (list) {
    list.querySelectorAll("input[type=checkbox]").forEach(function (box) { boxes.push(box); });
  });
  var key = "loombook:ticks:" + lists[0].getAttribute("data-ticks");
  var page = key.slice(0, key.lastIndexOf(":") + 1);
  var store = window.loombookStore();

  function read(name) {
    try {
      var found = JSON.parse(store.getItem(name));
      return found && typeof found.ticked === "object" && found.ticked ? found : null;
    } catch (broken) {
      return null; // not written by this page
    }
  }

  function wordsOf(box) {
    var label = box.closest("label") || document.querySelector("label[for='" + box.id + "']");
    return (label ? label.textContent : box.id).replace(/\s+/g, " ").trim().slice(0, 160);
  }

  /* Read again before each write: another tab may show the same page. */
  function keep(box) {
    var ticks = (store && read(key)) || { ticked: {} };
    ticks.off = ticks.off || {};
    delete ticks.ticked[box.id];
    delete ticks.off[box.id];
    if (box.checked) {
      ticks.ticked[box.id] = wordsOf(box);
    } else if (box.defaultChecked) {
      ticks.off[box.id] = 1;
    }
    ticks.of = boxes.length;
    ticks.on = new Date().toISOString().slice(0, 10);
    try {
      if (Object.keys(ticks.ticked).length + Object.keys(ticks.off).length) {
        store.setItem(key, JSON.stringify(ticks));
      } else {
        store.removeItem(key);
      }
    } catch (full) {
      refuse();
    }
  }

  function apply() {
    var ticks = read(key) || { ticked: {} };
    boxes.forEach(function (box) {
      box.checked = box.id in ticks.ticked || box.defaultChecked && !(box.id in (ticks.off || {}));
    });
  }

  function noteAbove(name) {
    var note = element("div", "", "tick-note " + name);
    note.setAttribute("role", "status");
    lists[0].parentNode.insertBefore(note, lists[0]);
    return note;
  }

  function refuse() {
    store = null;
    if (!document.querySelector(".ticks-refused")) {
      noteAbove("ticks-refused").appendChild(
        element("p", "This browser keeps no ticks: they last until you leave this page.")
      );
    }
  }

  function earlierKeys() {
    return Object.keys(store).filter(function (name) {
      return name.indexOf(page) === 0 && name !== key && read(name);
    }).sort(function (a, b) { return read(a).on < read(b).on ? 1 : -1; });
  }

  function showEarlier(name) {
    var ticks = read(name), ids = Object.keys(ticks.ticked);
    var note = noteAbove("ticks-earlier"), fold = element("details"), list = element("ul");
    var clear = element("button", "Clear these ticks", "button");
    note.appendChild(element("p", "Ticked for an earlier version of this plan, " + ticks.on + ": " +
      ids.length + " of " + ticks.of + ". They are not applied here."));
    ids.forEach(function (id) { list.appendChild(element("li", ticks.ticked[id])); });
    fold.appendChild(element("summary", "See what was ticked"));
    fold.appendChild(list);
    note.appendChild(fold);
    clear.type = "button";
    clear.addEventListener("click", function () {
      store.removeItem(name);
      note.remove();
    });
    note.appendChild(clear);
  }

  boxes.forEach(function (box) {
    box.addEventListener("change", function () {
      if (store) {
        keep(box);
      }
    });
  });
  if (!store) {
    refuse();
    return;
  }
  apply();
  earlierKeys().forEach(showEarlier);
  addEventListener("storage", function (event) {
    if (event.key === key) {
      apply();
    }
  });
})();
