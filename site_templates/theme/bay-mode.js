/* Bay mode: the steps and the bay sheet of a job, one step or one reading a screen, in the order of
   the work. It shows the very rows of the sheets, with their boxes and fields, and hides all else;
   so what is ticked and typed is kept where the sheets keep it. Its own entry of the store:
   loombook:bay-mode:<book>/<page>:<state> = {open, at: screen, undo: [{at, was: [[field, value]]}]} */
(function () {
  "use strict";
  var steps = Array.prototype.slice.call(document.querySelectorAll("li[data-lines]"));
  var holder = document.querySelector("[data-sheet]"), bay = window.loombookBay;
  if (!steps.length || !holder || !bay) {
    return;
  }
  var key = "loombook:bay-mode:" + holder.getAttribute("data-ticks"), MOST = 60;
  var store = window.loombookStore(), root = document.documentElement;
  var plugs = document.querySelector(".bay-plugs"), made = window.loombookScreens;
  var causes = window.loombookCauses, standing = window.loombookStanding;
  var element = window.loombookElement, notes = window.loombookNotes, box = made.box, state = made.state, wordsOf = made.words;
  var screens = made.all(steps, Array.prototype.slice.call(holder.querySelectorAll("[data-ask]")));
  var bar, where, bars, count, foot, next, undo, shown, job, kept = load();

  function load() {
    try {
      var found = JSON.parse(store.getItem(key));
      return found && Array.isArray(found.undo) ? found : fresh();
    } catch (none) {
      return fresh(); // none yet, or not written by this page
    }
  }

  function fresh() {
    return { open: false, at: "", undo: [] };
  }

  function keep() {
    if (store) {
      try {
        store.setItem(key, JSON.stringify(kept));
      } catch (full) {
        store = null;
      }
    }
  }

  function button(words, work, name) {
    var made = element("button", words, "button " + (name || ""));
    made.type = "button";
    made.addEventListener("click", work);
    return made;
  }

  function at() {
    var found = screens.findIndex(function (screen) { return screen.id === kept.at; });
    return found < 0 ? first() : found;
  }

  /* Where a phone begins that was not there before: at the first step that nobody ticked. */
  function first() {
    var left, done = steps.some(function (step) { return step.querySelector("input").checked; });
    left = screens.findIndex(function (screen) { return screen.step && !screen.ask && !box(screen).checked; });
    return done ? left < 0 ? screens.length - 1 : left : 0;
  }

  /* -- showing one ------------------------------------------------------------------------------- */

  function unmark() {
    document.querySelectorAll(".bay-path, .bay-now").forEach(function (node) {
      node.classList.remove("bay-path", "bay-now");
    });
    document.querySelectorAll(".bay-care, .bay-notes, .bay-causes").forEach(function (care) { care.remove(); });
    document.querySelectorAll(".bay-faces").forEach(function (faces) { faces.remove(); });
  }

  /* Everything beside the way down to a screen's node is hidden by the style sheet. */
  function mark(node) {
    node.classList.add("bay-now");
    for (var each = node.parentNode; each !== document.documentElement; each = each.parentNode) {
      each.classList.add("bay-path");
    }
  }

  /* Under the words of a line what to take care of, and the plug that it reads with its one cavity
     ringed. */
  function draw(screen) {
    var facts = screen.ask && screen.ask.facts, plug;
    if (screen.care) {
      screen.node.querySelector(".test").appendChild(element("p", screen.care, "bay-care"));
    }
    if (notes && screen.step) {
      (screen.ask ? screen.node.lastElementChild : screen.node).appendChild(notes.fields(screen));
    }
    if (screen.gate) {
      screen.node.lastElementChild.appendChild(element("p", screen.gate, "bay-care gate"));
    }
    plug = facts && facts.cavity && plugs ? plugs.querySelector("[data-plug='" + CSS.escape(facts.plug) + "']") : null;
    if (plug) {
      screen.node.querySelector(".test").appendChild(faces(plug, facts.cavity));
    }
  }

  /* Both faces, as the card of a pin has them. */
  function faces(plug, cavity) {
    var box = element("div", "", "bay-faces"), wire = plug.querySelector("[data-cavity='" + CSS.escape(cavity) + "']");
    var card = window.loombookCard;
    card.faces(Array.from(plug.querySelectorAll("svg.lb-plug"), card.copyOf), [[cavity, card.coloursIn(wire)]]).forEach(function (part) {
      box.appendChild(part);
    });
    return box;
  }

  function show(moved) {
    var number = at(), screen = screens[number], step = steps.indexOf(screen.step);
    kept.at = screen.id;
    keep();
    unmark();
    mark(screen.node);
    draw(screen);
    where.textContent = screen.step ? "Step " + (step + 1) + " of " + steps.length
      : number ? "All steps gone through" : "Cautions";
    shown.textContent = screen.stands;
    bars.max = screens.length - 1;
    bars.value = number;
    undo.disabled = !kept.undo.length;
    foot.querySelector(".bay-back").disabled = number === 0;
    tell();
    if (moved) {
      scrollTo(0, 0);
      screen.node.tabIndex = -1;
      screen.node.focus({ preventScroll: true });
    }
  }

  /* What Next does, and what comes after: so that a hand knows before it moves. */
  function tell() {
    var number = at(), screen = screens[number], after = screens[number + 1];
    next.hidden = !after;
    next.textContent = { seen: "Read: begin", done: "Done", failed: "Failed: next", read: "Next", open: "Leave it open" }[state(screen)];
    count.textContent = after ? "Then: " + wordsOf(after) : left();
    job.textContent = standing.words(screens, made);
    advise(screen);
  }

  /* Under a line that failed what it may be; the same words are not said a second time. */
  function advise(screen) {
    var old = screen.node.querySelector(".bay-causes"), block = null, fields, beside;
    if (screen.ask && state(screen) === "failed") {
      fields = screen.node.querySelectorAll(".bay-fill input");
      beside = (screen.ask.also || []).indexOf(bay.besideName(screen.ask)) + 1;
      block = causes.block(screen.ask, fields, beside ? fields[beside].value : "");
    }
    if (old && block && old.textContent === block.textContent) {
      return;
    }
    if (old) {
      old.remove();
    }
    if (block) {
      screen.node.querySelector(".bay-fill").after(block);
    }
  }

  function left() {
    var open = screens.filter(function (screen) {
      return screen.step && state(screen) === (screen.ask ? "open" : "done") && !box(screen).checked;
    }).length;
    return open ? open + (open === 1 ? " is" : " are") + " still open: Back leads to them." : "Nothing is open.";
  }

  /* -- moving on, and back ------------------------------------------------------------------------- */

  function fieldsOf(screen) {
    return Array.prototype.filter.call(screen.node.querySelectorAll("input, select"), function (field) {
      return !field.closest(".bay-notes");
    });
  }

  function values(screen) {
    return fieldsOf(screen).map(function (field) {
      return field.type === "checkbox" ? field.checked : field.value;
    });
  }

  var before; // what the fields of this screen held when it came up

  function go(number, moved) {
    kept.at = screens[number].id;
    before = values(screens[number]);
    show(moved);
  }

  function note(screen) {
    kept.undo.push({ at: screen.id, was: before });
    kept.undo = kept.undo.slice(-MOST);
  }

  function onward() {
    var number = at(), screen = screens[number], tick = box(screen), came = state(screen);
    note(screen);
    if (tick && tick.checked !== (came !== "open")) {
      tick.checked = came !== "open";
      tick.dispatchEvent(new Event("change"));
    }
    go(number + 1, true);
  }

  function put(field, value) {
    var now = field.type === "checkbox" ? field.checked : field.value;
    if (now === value) {
      return;
    }
    if (field.type === "checkbox") {
      field.checked = value;
    } else {
      field.value = value;
    }
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function takeBack() {
    var last = kept.undo.pop();
    if (!last) {
      return;
    }
    kept.at = last.at;
    fieldsOf(screens[at()]).forEach(function (field, number) {
      if (number < last.was.length) {
        put(field, last.was[number]);
      }
    });
    go(at(), true);
  }

  function open() {
    kept.open = true;
    root.classList.add("bay-mode");
    go(at(), true);
  }

  function close() {
    var node = screens[at()].node;
    kept.open = false;
    keep();
    unmark();
    root.classList.remove("bay-mode");
    stay(node);
  }

  /* Where the hand was: on its sheet when that is shown, else where the work is begun from. */
  function stay(node) {
    var begin = Array.prototype.find.call(document.querySelectorAll(".bay-begin button"), seen);
    var at = seen(node) ? node : begin;
    if (at) {
      at.scrollIntoView({ block: "center" });
      at.focus({ preventScroll: true });
    }
  }

  function seen(node) { return node.checkVisibility(); }

  /* -- what stands round a screen -------------------------------------------------------------------- */

  function region(name, words) {
    var made = element("div", "", name);
    made.setAttribute("role", "region");
    made.setAttribute("aria-label", words);
    return made;
  }

  bar = region("bay-bar", "Where you are in the work");
  where = element("strong");
  where.setAttribute("role", "heading"); // the page's own is hidden
  where.setAttribute("aria-level", "1");
  shown = element("span", "", "bay-stands");
  job = element("span", "", "bay-job");
  bars = element("progress");
  bars.setAttribute("aria-label", "How far through the work");
  var said = element("p");
  said.setAttribute("role", "status");
  said.append(where, " ", shown);
  bar.append(said, button("Sheets", close, "bay-close"), job, bars);
  foot = region("bay-foot", "On and back");
  count = element("p", "", "bay-then");
  undo = button("Undo", takeBack, "bay-undo");
  next = button("Done", onward, "bay-next");
  foot.append(count, button("Back", function () { go(Math.max(at() - 1, 0), true); }, "bay-back"), undo, next);
  document.body.append(bar, foot);
  document.addEventListener("input", function () { if (kept.open) { tell(); } });
  document.addEventListener("change", function () { if (kept.open) { tell(); } });
  document.addEventListener("click", function () {
    if (kept.open && !document.querySelector(".bay-now")) { // the sheet was cleared
      show();
    }
  });
  document.addEventListener("keydown", function (event) {
    var field = event.target.closest("input:not([type=checkbox]), select, textarea, button, a");
    if (!kept.open || event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    if (event.key === "Escape") {
      close();
    } else if (event.key === "Enter" && field && field.tagName === "INPUT" || !field && event.key === "ArrowRight") {
      event.preventDefault();
      next.click();
    } else if (!field && event.key === "ArrowLeft") {
      foot.querySelector(".bay-back").click();
    }
  });
  document.querySelectorAll(".bay-begin").forEach(function (place) {
    place.append(button("Work through it, one step a screen", open));
    place.hidden = false;
  });
  if (kept.open || location.hash === "#bay-mode") {
    open();
  }
})();
