// The page "What is this wire?": readings in, ranking out. It judges nothing itself: identify.js does.
(function () {
  "use strict";
  const KEY = "loombook:identify:readings";
  // Least and most of each quantity, as in the record format.
  const LIMITS = { dc_v: [-20, 60], ac_v: [0, 60], ohm: [0, 1e9], hz: [0, 1e6], ma: [-5e5, 5e5], duty_percent: [0, 100] };
  const MOVES_BATTERY = ["crank", "engine", "auto_restart"];
  const engine = window.loombookIdentify, data = window.loombookIdentifyData;
  let readings = [], skipped = [];

  function at(id) { return document.getElementById("identify-" + id); }

  function element(tag, name, text) {
    const node = document.createElement(tag);
    if (name) node.className = name;
    if (text !== undefined) node.textContent = text;
    return node;
  }

  // ---- keeping ---------------------------------------------------------------------------
  function keep() {
    try { localStorage.setItem(KEY, JSON.stringify({ readings: readings, skipped: skipped })); }
    catch (refused) { /* Without storage the readings last as long as the page. */ }
  }

  function recall() {
    try {
      const kept = JSON.parse(localStorage.getItem(KEY) || "{}");
      readings = (kept.readings || []).filter(isReading);
      skipped = (kept.skipped || []).filter((key) => typeof key === "string");
    } catch (refused) { readings = []; skipped = []; }
  }

  function isNumberOrNull(value) { return value === null || (typeof value === "number" && isFinite(value)); }

  function own(object, key) { return Object.prototype.hasOwnProperty.call(object, key); }

  // What is kept may come from an older page: what this one does not know is left out.
  function isReading(r) {
    return r && own(data.states, r.state) && own(data.quantities, r.quantity) && own(data.against, r.against) &&
      own(data.loads, r.load) && [r.value, r.battery, r.minutes].every(isNumberOrNull);
  }

  // ---- the form ----------------------------------------------------------------------------
  function number(id) {
    const text = at(id).value.trim().replace(",", ".").replace("−", "-");
    return text === "" ? null : /^[-+]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : NaN;
  }

  function slip(text, id) {
    at("slip").textContent = text;
    if (id) at(id).focus();
    return null;
  }

  function read(isOpen) {
    const state = at("state").value, quantity = at("quantity").value, value = isOpen ? null : number("value");
    const volts = quantity === "dc_v" || quantity === "ac_v", asleep = state === "asleep";
    const battery = volts ? number("battery") : null, minutes = asleep ? number("minutes") : null;
    const low = LIMITS[quantity][0], high = LIMITS[quantity][1], dead = data.limits.dead_states.indexOf(state) >= 0;
    if (quantity === "ohm" && !dead) return slip("Ohms are read on dead circuits only: plug off or battery off.", "state");
    if (isOpen && quantity !== "ohm") return slip("Only an ohm reading can be open. Choose ohms, or type the volts.", "quantity");
    if (!isOpen && value === null) return slip("Type what the meter shows.", "value");
    if (!isOpen && !(value >= low && value <= high)) return slip("That is not a figure between " + low + " and " + high + ".", "value");
    if (battery !== null && !(battery >= 0 && battery <= 60)) return slip("Battery volts lie between 0 and 60.", "battery");
    if (asleep && !(minutes !== null && minutes >= 0 && minutes <= 20000)) return slip("How many minutes has it been locked and left alone?", "minutes");
    slip("");
    return { state: state, quantity: quantity, value: value, against: at("against").value, battery: battery,
      load: quantity === "ohm" ? "none" : at("load").value, minutes: minutes };
  }

  function add(isOpen) {
    const reading = read(isOpen);
    if (!reading) return;
    readings.push(reading);
    at("value").value = "";
    at("load").value = "none";
    if (MOVES_BATTERY.indexOf(reading.state) >= 0) at("battery").value = "";
    show(true);
  }

  function suit() {
    const quantity = at("quantity").value;
    at("minutes-field").hidden = at("state").value !== "asleep";
    at("battery-field").hidden = quantity !== "dc_v" && quantity !== "ac_v";
    at("load-field").hidden = quantity === "ohm";
    at("open").hidden = quantity !== "ohm";
  }

  function fillIn(measurement) {
    at("state").value = measurement.state;
    at("quantity").value = measurement.quantity;
    at("against").value = measurement.against;
    at("load").value = measurement.load;
    suit();
  }

  // ---- what is shown ---------------------------------------------------------------------------
  function readingLine(reading, index) {
    const item = element("li"), words = element("span", "", engine.readingWords(reading));
    const more = [];
    if (reading.against === "other_leg") more.push("against the other wire of the pair");
    if (reading.battery !== null) more.push("battery " + reading.battery.toFixed(2) + " V");
    if (more.length) words.appendChild(element("small", "", " " + more.join(", ")));
    const button = element("button", "button small", "Take back");
    button.type = "button";
    button.setAttribute("aria-label", "Take back: " + engine.readingWords(reading));
    button.addEventListener("click", function () { readings.splice(index, 1); show(true); at("value").focus(); });
    item.appendChild(words);
    item.appendChild(document.createTextNode(" "));
    item.appendChild(button);
    return item;
  }

  function sentences(list, title, box) {
    if (!list.length) return;
    box.appendChild(element("p", "identify-how", title));
    const items = element("ul");
    list.forEach((sentence) => items.appendChild(element("li", "", sentence)));
    box.appendChild(items);
  }

  function card(candidate, tie) {
    const box = element("details", "identify-kind"), name = candidate.kind.function, head = element("summary");
    const best = tie.indexOf(name) >= 0;
    head.appendChild(element("strong", "", engine.word(name)));
    head.appendChild(document.createTextNode(" "));
    head.appendChild(element("span", "identify-count", candidate.contradicted.length ?
      candidate.contradicted.length + " contradicted" :
      candidate.met.length + " met, " + candidate.untested + " untested" + (best ? (tie.length > 1 ? ", equally good" : ", fits best") : "")));
    box.appendChild(head);
    box.appendChild(element("p", "", candidate.kind.name + (candidate.kind.note ? ". " + candidate.kind.note : "")));
    sentences(candidate.contradicted, "Contradicted", box);
    sentences(candidate.met, "Met", box);
    sentences(candidate.silent, "Says nothing", box);
    box.open = best && tie.length === 1;
    return box;
  }

  function group(title, candidates, tie, place) {
    if (!candidates.length) return;
    place.appendChild(element("h3", "", title));
    candidates.forEach((candidate) => place.appendChild(card(candidate, tie)));
  }

  function folded(title, candidates, place) {
    if (!candidates.length) return;
    const fold = element("details", "identify-out");
    fold.appendChild(element("summary", "", title + " (" + candidates.length + ")"));
    candidates.forEach((candidate) => fold.appendChild(card(candidate, [])));
    place.appendChild(fold);
  }

  function showRanking(found) {
    const place = at("ranking"), seen = [];
    const best = found.candidates.filter((c) => seen.indexOf(c.kind.function) < 0 && seen.push(c.kind.function));
    place.textContent = "";
    if (!readings.length) return;
    group("Fits", best.filter((c) => !c.contradicted.length && c.met.length), found.tie, place);
    folded("Neither borne out nor ruled out", best.filter((c) => !c.contradicted.length && !c.met.length), place);
    folded("Ruled out", best.filter((c) => c.contradicted.length), place);
  }

  function showRaising(found) {
    const place = at("prove"), to = found.raising;
    place.textContent = "";
    if (!to) return;
    place.appendChild(element("h3", "", "To prove it"));
    if (to.measurement) {
      place.appendChild(element("p", "identify-do", to.words + ": " + to.expect));
      if (to.mind) place.appendChild(element("p", "identify-mind", "Mind: " + to.mind));
    }
    if (to.why) place.appendChild(element("p", "", to.why[0].toUpperCase() + to.why.slice(1) + "."));
    if (to.also.length) place.appendChild(element("p", "", (to.measurement ? "Then still: " : "Still to measure: ") + to.also.join("; ")));
  }

  function showHouse(found) {
    at("house").textContent = found.house.length ?
      "House default" + (found.house.length > 1 ? "s" : "") + " (book.yaml): " + found.house.join(", ") : "";
  }

  function showNext(found) {
    const next = found.next, expect = at("expect");
    expect.textContent = "";
    at("next-title").textContent = found.decided && next ? "To rule out more" : "Measure next";
    at("next-buttons").hidden = !next;
    at("mind").hidden = !next;
    if (!next) {
      at("do").textContent = readings.length && !found.tie.length ?
        "Nothing fits. Take back the reading that may be wrong, and read it again." : found.open.length > 1 ? skipped.length ? "What could tell these apart was skipped. Start again, or type a reading of your own." :
        "No further reading of the table tells these apart." : "Nothing more: see below.";
      return;
    }
    at("do").textContent = next.words;
    next.expected.forEach((words) => expect.appendChild(element("li", "", words)));
    at("mind").textContent = "Mind: " + next.safety;
  }

  function soFar(found) {
    if (found.decided) return "Decided: " + found.tie.map(engine.phrase).join(", ") + ".";
    if (!found.tie.length) return "Contradicted everywhere.";
    if (!found.candidates.some((c) => c.met.length && !c.contradicted.length)) return "Nothing is borne out yet.";
    const more = found.tie.length > 4 ? " and " + (found.tie.length - 4) + " more" : "";
    return found.open.length + " kinds of wire left; " + (found.tie.length > 1 ? "equally good: " : "best so far: ") +
      found.tie.slice(0, 4).map(engine.word).join(", ") + more + ".";
  }

  function show(changed) {
    const found = engine.identify(readings, skipped), list = at("readings");
    list.textContent = "";
    readings.forEach((reading, index) => list.appendChild(readingLine(reading, index)));
    if (!readings.length) list.appendChild(element("li", "identify-none", "None yet."));
    const verdict = found.verdict.replace(/\.$/, "") + ".";
    at("verdict").textContent = !readings.length ? "Nothing has been measured yet." :
      (found.decided ? "Decided: " : "Not decided: ") + verdict;
    at("so-far").hidden = !readings.length;
    at("so-far").textContent = readings.length ? soFar(found) : "";
    showRanking(found);
    showRaising(found);
    showHouse(found);
    showNext(found);
    if (found.next) fillIn(found.next.measurement);
    if (changed) keep();
    at("skip").onclick = function () { skipped.push(found.next.key); show(true); };
  }

  function again() {
    readings = [];
    skipped = [];
    at("battery").value = "";
    at("minutes").value = "";
    slip("");
    show(true);
    at("value").focus();
  }

  function start() {
    engine.load(data);
    recall();
    const last = readings.filter((r) => r.battery !== null && MOVES_BATTERY.indexOf(r.state) < 0).pop();
    if (last) at("battery").value = String(last.battery);
    at("form").addEventListener("submit", function (event) { event.preventDefault(); add(false); at("value").focus(); });
    at("open").addEventListener("click", function () { add(true); });
    at("again").addEventListener("click", again);
    at("state").addEventListener("change", suit);
    at("quantity").addEventListener("change", suit);
    document.getElementById("identify").hidden = false;
    suit();
    show(false);
  }

  if (engine && data && document.getElementById("identify")) start();
})();
