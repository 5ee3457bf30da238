/* The screens of bay mode: each step, behind it the lines that are read in it, and the evidence last.
   A screen is {id, node, step, ask, care, gate, stands}; `ask` is null for what is no reading. */
window.loombookScreens = (function () {
  "use strict";
  var bay = window.loombookBay;

  /* The heads of a sheet's columns are not seen here: each cell gets the words of its own. */
  function headed(row) {
    var heads = row.closest("table").tHead.rows[0].cells;
    Array.prototype.slice.call(row.cells, 1).forEach(function (cell) {
      cell.setAttribute("data-label", heads[cell.cellIndex].textContent);
    });
  }

  /* What to take care of in a line stands once over its group: here it stands with the line. */
  function careOf(row) {
    var mark = row.querySelector(".care-mark"), said;
    said = mark && Array.prototype.find.call(row.closest("table").querySelectorAll("caption small"), function (each) {
      return each.textContent.toLowerCase().indexOf(mark.textContent.toLowerCase() + ":") === 0;
    });
    return said ? said.textContent : "";
  }

  function screen(node, step, facts) {
    return Object.assign({
      id: node.querySelector("input[type=checkbox]").id, node: node, step: step, ask: null,
      stands: step.getAttribute("data-stands")
    }, facts);
  }

  /* The readings of a step; what lets its gate pass are they, so it stands under the last. */
  function readings(step, rows) {
    var gate = step.querySelector(".gate");
    var found = step.getAttribute("data-lines").split(" ").filter(Boolean).map(function (test) {
      var row = rows.find(function (each) { return bay.askOf(each).test === test; });
      headed(row);
      return screen(row, step, { ask: bay.askOf(row), care: careOf(row) });
    });
    if (gate && found.length) {
      found[found.length - 1].gate = gate.textContent;
    }
    return found;
  }

  /* All of them in the order of the work. Of the evidence the node is looked up anew each time: a
     sheet that is cleared gets another. */
  function all(steps, rows) {
    var cautions = document.querySelector(".sheet-steps .sheet-cautions"), screens = [];
    if (cautions) {
      screens.push({ id: "cautions", node: cautions, stands: "before work begins", step: null, ask: null });
    }
    steps.forEach(function (step) {
      screens = screens.concat(screen(step, step), readings(step, rows));
    });
    return screens.concat({
      id: "evidence", stands: "", step: null, ask: null,
      get node() { return document.querySelector(".bay-panel"); }
    });
  }

  function wordsOf(screen) {
    var what = screen.node.querySelector(".what");
    if (what) {
      what = what.cloneNode(true);
      what.querySelector(screen.ask ? ".test-id" : "b").remove();
    }
    return what ? what.textContent.replace(/\s+/g, " ").trim() : "what was read, as evidence";
  }

  function box(screen) {
    return screen.node.querySelector("input[type=checkbox]");
  }

  /* "seen" is what is no step, "done" a step; a reading is "read", "failed" or still "open". */
  function state(screen) {
    var ask = screen.ask, fields, beside, value;
    if (!ask) {
      return screen.step ? "done" : "seen";
    }
    if (ask.quantity === "check") {
      value = screen.node.querySelector(".bay-fill select").value;
      return { yes: "read", no: "failed" }[value] || "open";
    }
    fields = screen.node.querySelectorAll(".bay-fill input"); // the figure, then what is asked beside it
    beside = (ask.also || []).indexOf(bay.besideName(ask)) + 1;
    value = bay.verdict(fields[0].value, ask, beside ? fields[beside].value : "").state;
    return { low: "failed", high: "failed", empty: "open", slip: "open", unjudged: "open" }[value] || "read";
  }

  return { all: all, box: box, state: state, words: wordsOf };
})();
