// The page "Take down a car": steps, findings, drafts, and the finished text. What a field is comes from the
// schema, what is wrong from the validator and the rules; nothing is sent anywhere.
(function () {
  "use strict";
  const data = window.loombookMakerData, form = window.loombookForm, drafts = window.loombookDrafts, yaml = window.loombookYaml;
  const words = window.loombookShapeWords, rules = window.loombookRules, plugs = window.loombookPlugs, undo = window.loombookUndo, photos = window.loombookMakerPhotos;
  const STEPS = [
    ["The car", ["data", "make", "model", "variant", "generation", "id", "edited"]],
    ["Which cars", ["scope"]],
    ["Radio", ["radio"]],
    ["Factory amplifier", ["factory_amplifier"]],
    ["Features", ["features"]],
    ["Power", ["power"]],
    ["Safety", ["safety"]],
    ["What comes off", ["access", "passages"]],
    ["Measuring", ["sessions"]],
    ["Plugs", ["plugs"]],
    ["Speakers", ["channels"]],
    ["Sounds to keep", ["protected_sounds"]],
    ["Its sisters", ["how_to_tell"]],
    ["Fuses and the rest", ["fuse_positions", "accept", "resolutions", "photos", "replaces"]],
    ["Check and take", []]
  ];
  const TAKE = STEPS.length - 1, PLUGS = STEPS.findIndex((each) => each[0] === "Plugs"), WAIT_MS = 120;
  let draft = null, step = 0, found = [], refused = false, timer = 0;

  function at(id) { return document.getElementById("maker-" + id); }

  // ---- findings --------------------------------------------------------------------------------
  function own(list, file) { return list.map((one) => Object.assign({ file: file }, one)); }

  function look() {
    const record = draft.record, shells = plugs.shells();
    found = own(words.shapeFindings("vehicle", record), "vehicle").concat(own(rules.ruleFindings(record, shells), "vehicle"));
    draft.housings.forEach(function (housing) {
      const both = words.shapeFindings("housing", housing).concat(rules.housingFindings(housing));
      found = found.concat(own(both, "housing"));
    });
  }

  function stepOf(one) {
    if (one.file === "housing") return PLUGS;
    const step = STEPS.findIndex((each) => each[1].indexOf(one.path[0]) >= 0);
    return step < 0 ? 0 : step;
  }

  function counts(list) {
    const missing = list.filter((one) => one.missing).length, wrong = list.length - missing, parts = [];
    if (missing) parts.push(missing + " to answer");
    if (wrong) parts.push(wrong + " to look at");
    return parts.join(", ");
  }

  function showStatus() {
    const kept = refused ? " This browser keeps no drafts: copy or download before you leave the page." : " Kept on this device." + photos.warning();
    at("status").textContent = (counts(found) || "Nothing is missing, and nothing that is checked here is wrong") + "." + kept;
    at("status").classList.toggle("maker-warn", refused);
    STEPS.forEach(function (each, index) {
      const mark = at("step-" + index).querySelector("small");
      mark.textContent = index === TAKE ? "" : counts(found.filter((one) => stepOf(one) === index)) || "done";
    });
    form.showFindings(at("fields"), found);
  }

  // `quiet`: a change that is part of the next one.
  function changed(quiet) {
    complete();
    undo.note(typedIn(), quiet === true);
    showUndo();
    refused = !drafts.keep(draft);
    clearTimeout(timer);
    timer = setTimeout(settle, WAIT_MS);
  }

  function settle() {
    look();
    showStatus();
    if (step === TAKE) showTake();
  }

  // ---- back and forward ------------------------------------------------------------------------------
  function isTextField(node) { return Boolean(node) && (node.localName === "textarea" || (node.localName === "input" && node.type !== "file")); }

  function typedIn() { return isTextField(document.activeElement) ? document.activeElement.id : ""; }

  function showUndo() {
    const counts = undo.counts();
    at("undo").disabled = !counts[0];
    at("redo").hidden = !counts[1];
  }

  // Go one change back or forward, and to the place that it is about.
  function move(way, said) {
    const path = way();
    if (path === null) return;
    clearTimeout(timer);
    const one = { file: path[0] === "housings" ? "housing" : "vehicle", path: path.slice(1) }, there = path[0] === "record" ? stepOf(one) : PLUGS;
    if (there !== step) { step = there; plugs.leave(); }
    if (path[0] === "record" && path[1] === "plugs") plugs.open(one.path);
    refused = !drafts.keep(draft);
    draft.proposed = draft.record.id === idFor(draft.record) ? draft.record.id : undefined;
    again();
    at("status").textContent = said + " " + placeWords(path) + ". " + at("status").textContent;
  }

  function placeWords(path) {
    if (path[0] !== "record") return path[0] === "pasted" ? "the pasted text" : path[0] === "meant" ? "what a word means" : "the housing that is drawn";
    const plug = path[1] === "plugs" && (draft.record.plugs || [])[path[2]], pin = plug && path[3] === "pins" && (plug.pins || [])[path[4]];
    if (plug) return "plug " + (plug.id || "?") + (pin ? ", cavity " + pin.cavity : "");
    return path.slice(1).filter((part) => typeof part === "string").map(form.word).join(", ") || "the record";
  }

  // In a field that was typed in, the keys are the browser's own; elsewhere they are for the draft.
  function keys(event) {
    const key = event.key.toLowerCase(), isBack = key === "z" && !event.shiftKey, isForward = key === "y" || (key === "z" && event.shiftKey);
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !(isBack || isForward) || draft === null || at("work").hidden) return;
    if (isTextField(event.target) && event.target.loombookTyped) return;
    event.preventDefault();
    if (isBack) back(); else forward();
  }

  function back() { move(undo.back, "Taken back:"); }

  function forward() { move(undo.forward, "Done again:"); }

  function watchFields(event) {
    if (event.type === "input") event.target.loombookTyped = true;
    else { event.target.loombookTyped = false; undo.rest(); }
  }

  // ---- what follows from other answers --------------------------------------------------------------
  function slug(text) { return (text.toLowerCase().match(/[a-z0-9]+/g) || []).join("-"); }

  function idFor(record) {
    const first = record.scope && record.scope.year_from;
    return slug([record.make, record.model, first, record.variant].filter((one) => one !== undefined).join(" ")).slice(0, 80).replace(/-$/, "");
  }

  function complete() {
    const record = draft.record, wanted = idFor(record);
    if (wanted && (record.id === undefined || record.id === draft.proposed)) record.id = draft.proposed = wanted;
    completeChannels(record, draft.made = draft.made || []);
  }

  // A pair that a pin names has an entry among the speakers; one made so goes when no pin names it.
  function completeChannels(record, made) {
    const named = [];
    (record.plugs || []).forEach((plug) => (plug.pins || []).filter((pin) => pin.channel).forEach(function (pin) {
      const list = record.channels = record.channels || [];
      named.push(pin.channel);
      if (list.some((one) => one.channel === pin.channel)) return;
      made.push(pin.channel);
      list.push(Object.assign({ channel: pin.channel }, ["radio", "amplifier"].indexOf(plug.unit) >= 0 ? { driven_by: plug.unit } : {}));
    }));
    const isLeft = (one) => made.indexOf(one.channel) >= 0 && named.indexOf(one.channel) < 0 && one.band === undefined;
    if (record.channels && record.channels.some(isLeft)) record.channels = record.channels.filter((one) => !isLeft(one));
  }

  // ---- steps -------------------------------------------------------------------------------------
  function showSteps() {
    const list = at("steps");
    list.textContent = "";
    STEPS.forEach(function (each, index) {
      const item = form.element("li"), press = form.button(each[0], () => go(index), null, "maker-step");
      press.id = "maker-step-" + index;
      press.appendChild(form.element("small"));
      item.appendChild(press);
      list.appendChild(item);
    });
  }

  function go(to) {
    plugs.tidy(draft);
    step = to;
    plugs.leave();
    at("nav").classList.remove("maker-steps-open");
    again();
    at("title").focus();
    toTop();
  }

  function toTop() { window.scrollTo(0, at("work").getBoundingClientRect().top + window.scrollY); }

  // Show the step anew; `focus` is the id of what has the focus afterwards.
  function again(focus) {
    STEPS.forEach((each, index) => {
      if (index === step) at("step-" + index).setAttribute("aria-current", "step");
      else at("step-" + index).removeAttribute("aria-current");
    });
    at("title").textContent = STEPS[step][0];
    at("where").textContent = titleOf(draft) + ", step " + (step + 1) + " of " + STEPS.length;
    at("before").disabled = step === 0;
    at("after").disabled = step === TAKE;
    const box = at("fields"), required = words.schemaAt("vehicle", []).required;
    box.textContent = "";
    look();
    stepFields(STEPS[step][1], required).forEach((one) => box.appendChild(one));
    if (openUnknowns().length && STEPS[step][0] !== "Plugs") box.appendChild(restUnknown());
    at("take").hidden = step !== TAKE;
    showStatus();
    showUndo();
    if (step === TAKE) showTake();
    const to = focus && document.getElementById(focus);
    if (to) to.focus({ preventScroll: focus !== "maker-pin" });
  }

  // A step about one group shows its keys at once.
  function stepFields(keys, required) {
    const at = { kind: "vehicle", record: draft.record };
    const isGroup = (key) => words.schemaAt("vehicle", [key]).type === "object" && required.indexOf(key) >= 0;
    if (keys.length === 1 && isGroup(keys[0])) return form.keys(at, keys);
    return keys.map((key) => form.field(Object.assign({ path: [key], required: required.indexOf(key) >= 0 }, at)));
  }

  // Every open answer of this step for which unknown is an answer.
  function openUnknowns() {
    return found.filter((one) => one.missing && one.file === "vehicle" && stepOf(one) === step).filter(function (one) {
      const schema = words.schemaAt("vehicle", one.path);
      return isListUnknown(schema) || (schema.enum || []).concat((schema.then || {}).enum || []).indexOf("unknown") >= 0;
    });
  }

  function isListUnknown(schema) { return schema.type === "array" && (schema.description || "").indexOf("[unknown]") >= 0; }

  function restUnknown() {
    const press = form.button("Not looked: answer the rest here with unknown", function () {
      look();
      openUnknowns().forEach((one) => form.put(draft.record, one.path, isListUnknown(words.schemaAt("vehicle", one.path)) ? ["unknown"] : "unknown"));
      again("maker-rest");
      changed();
    });
    press.id = "maker-rest";
    return press;
  }

  // ---- the finished text ---------------------------------------------------------------------------
  function files() {
    const record = draft.record, used = (record.plugs || []).map((plug) => plug.housing), id = record.id || "no-id-yet";
    const vehicle = { path: "vehicles/" + (slug(record.make || "") || "make") + "/" + id + ".yaml", kind: "vehicle", record: record };
    return [vehicle].concat(draft.housings.filter((one) => used.indexOf(one.id) >= 0).map((one) => ({ path: "housings/" + one.id + ".yaml", kind: "housing", record: one })));
  }

  function say(text) { at("said").textContent = text; }

  function download(blob, name, where) {
    const link = form.element("a"), address = URL.createObjectURL(blob);
    link.href = address;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
    say("Saved as " + name + ". " + where);
  }

  function downloadFile(file, text) {
    download(new Blob([text], { type: "application/yaml" }), file.path.split("/").pop(), "It belongs at " + file.path + " of the book.");
  }

  // ---- all of a draft in one file ----------------------------------------------------------------
  // Photos lie beside the record of the car. What is lost is said, and nothing is left out unsaid.
  function downloadAll() {
    const one = draft, all = files();
    photos.bytes(one).then(function (found) {
      if (found.lost.length) { say("This browser has lost " + found.lost.join(", ") + ": take it again, or remove it from the list of photos."); return; }
      const folder = all[0].path.split("/").slice(0, -1).join("/"), encoder = new TextEncoder();
      const texts = all.map((file) => ({ name: file.path, bytes: encoder.encode(yaml.writeRecord(file.record, file.kind)) }));
      const pictures = found.files.map((file) => ({ name: folder + "/" + file.name, bytes: file.bytes }));
      download(photos.zip(texts.concat(pictures)), (one.record.id || "car") + ".zip", "Unpack it in the folder of the book's records: each file in it has its place.");
    }).catch((problem) => say("It cannot be written: " + problem.message));
  }

  function allInOne() {
    const box = form.element("p"), count = photos.ours(draft).length, press = form.button("Download all in one .zip", downloadAll, null, "strong");
    press.id = "maker-zip";
    box.appendChild(press);
    box.appendChild(form.element("span", "maker-help", " " + files().length + (files().length === 1 ? " record" : " records") + (count ? ", " + count + (count === 1 ? " photo" : " photos") : "")));
    return box;
  }

  function copy(node, file) {
    const done = () => say("Copied: it belongs at " + file.path + " of the book.");
    node.select();
    if (!navigator.clipboard) { if (document.execCommand("copy")) done(); return; }
    navigator.clipboard.writeText(node.value).then(done, () => say("This browser refuses to copy. The text is marked: copy it by hand."));
  }

  function shareButton(file, text) {
    const whole = typeof File === "function" ? new File([text], file.path.split("/").pop() , { type: "text/plain" }) : null;
    if (!whole || !navigator.canShare || !navigator.canShare({ files: [whole] })) return [];
    return [form.button("Share", () => navigator.share({ files: [whole], title: file.path }).catch(() => say("Nothing was shared.")))];
  }

  function fileBox(file, index) {
    const box = form.element("section", "maker-file"), node = form.element("textarea"), row = form.element("div", "maker-choices");
    let text = "", why = "";
    try { text = yaml.writeRecord(file.record, file.kind); } catch (problem) { why = problem.message; }
    node.id = "maker-text-" + index;
    node.readOnly = true;
    node.rows = 12;
    node.value = text;
    node.setAttribute("aria-label", file.path);
    box.appendChild(form.element("h3", "", file.path));
    if (why) { box.appendChild(form.element("p", "maker-slip", "It cannot be written: " + why)); return box; }
    [form.button("Copy", () => copy(node, file), null, "strong"), form.button("Download", () => downloadFile(file, text))].concat(shareButton(file, text))
      .forEach((one) => row.appendChild(one));
    box.appendChild(row);
    box.appendChild(node);
    return box;
  }

  function findingLine(one) {
    const item = form.element("li"), press = form.button("Go there", function () {
      go(stepOf(one));
      if (one.file === "vehicle" && one.path[0] === "plugs") plugs.open(one.path);
      if (one.file === "housing") plugs.open(["plugs", draft.record.plugs.findIndex((plug) => draft.housings.some((each) => each.id === plug.housing))]);
      again();
      const target = nearest(one);
      for (let part = target; part; part = part.parentElement) if (part.localName === "details") part.open = true;
      if (target) target.scrollIntoView({ block: "center" });
    }, null, "small");
    item.appendChild(form.element("strong", "", one.id === "reading" ? "" : one.id + " "));
    item.appendChild(form.element("span", "", one.message + ". " + one.help[0].toUpperCase() + one.help.slice(1).replace(/\.?$/, ". ")));
    item.appendChild(form.element("small", "", STEPS[stepOf(one)][0]));
    item.appendChild(press);
    return item;
  }

  // What a step still asks for, in one line.
  function dueLine(name, index, due) {
    const item = form.element("li"), all = due.map((one) => form.word(one.path[one.path.length - 1]));
    const keys = Array.from(new Set(all)).map((key) => key + (all.indexOf(key) < all.lastIndexOf(key) ? " (" + all.filter((one) => one === key).length + ")" : ""));
    const press = form.button("Go there", () => go(index), null, "small");
    press.setAttribute("aria-label", "Go to " + name);
    item.appendChild(form.element("strong", "", name));
    item.appendChild(form.element("span", "", "to answer: " + keys.join(", ")));
    item.appendChild(press);
    return item;
  }

  function nearest(one) {
    const boxes = Array.from(at("fields").querySelectorAll("[data-path]")).map((box) => ({ box: box, path: JSON.parse(box.dataset.path) }))
      .filter((box) => box.box.dataset.kind === one.file && box.path.every((part, index) => part === one.path[index]));
    boxes.sort((a, b) => b.path.length - a.path.length);
    return boxes.length ? boxes[0].box : null;
  }

  function showTake() {
    const list = at("findings"), texts = at("files");
    list.textContent = "";
    STEPS.forEach(function (each, index) {
      const due = found.filter((one) => one.missing && stepOf(one) === index);
      if (due.length) list.appendChild(dueLine(each[0], index, due));
    });
    found.filter((one) => !one.missing).slice(0, 100).forEach((one) => list.appendChild(findingLine(one)));
    if (!found.length) list.appendChild(form.element("li", "", "Nothing that can be checked here is wrong or missing."));
    texts.textContent = "";
    if (files().length > 1 || photos.ours(draft).length) texts.appendChild(allInOne());
    files().forEach((file, index) => texts.appendChild(fileBox(file, index)));
  }

  // ---- drafts --------------------------------------------------------------------------------------
  function titleOf(one) {
    const r = one.record, year = r.scope && r.scope.year_from;
    return [r.make, r.model, year, r.variant].filter(Boolean).join(" ") || "A car without a name";
  }

  function deleteButton(one) {
    const press = form.button("Delete", function () {
      if (press.textContent === "Delete") { press.textContent = "Really delete?"; return; }
      drafts.forget(one.key);
      showDrafts();
      at("new").focus();
    }, null, "small");
    return press;
  }

  // The draft that was deleted last, until another is.
  function gone() {
    const one = drafts.lastGone();
    if (!one) return [];
    const item = form.element("li"), press = form.button("Bring it back", () => { drafts.bringBack(); showDrafts(); });
    press.setAttribute("aria-label", "Bring back " + titleOf(one));
    item.appendChild(form.element("span", "", "Deleted: " + titleOf(one) + " "));
    item.appendChild(press);
    item.appendChild(form.button("Forget it for good", () => { drafts.dropGone(); showDrafts(); }, null, "small"));
    return [item];
  }

  function showDrafts() {
    const list = at("drafts"), all = drafts.list();
    draft = null;
    list.textContent = "";
    all.forEach(function (one) {
      const item = form.element("li"), open = form.button("Open", () => work(one));
      open.setAttribute("aria-label", "Open " + titleOf(one));
      item.appendChild(form.element("span", "", titleOf(one) + " "));
      item.appendChild(form.element("small", "", String(one.saved).slice(0, 16).replace("T", " ")));
      item.appendChild(open);
      item.appendChild(deleteButton(one));
      list.appendChild(item);
    });
    gone().forEach((item) => list.appendChild(item));
    at("start").hidden = false;
    at("work").hidden = true;
    document.body.classList.remove("maker-working");
    if (!all.length) list.appendChild(form.element("li", "", "No draft is kept on this device."));
  }

  function work(one) {
    draft = one;
    step = 0;
    draft.proposed = draft.record.id === idFor(draft.record) ? draft.record.id : undefined;
    plugs.tidy(one);
    undo.begin(one);
    at("start").hidden = true;
    at("work").hidden = false;
    document.body.classList.add("maker-working");
    plugs.leave();
    showSteps();
    again();
    at("title").focus();
  }

  function fresh() {
    const record = Object.assign({ schema: 1 }, form.skeleton(words.schemaAt("vehicle", [])));
    const one = { key: drafts.newKey(), record: record, housings: [] };
    refused = !drafts.keep(one);
    work(one);
  }

  // ---- start -----------------------------------------------------------------------------------------
  const special = {
    plugs: (given) => plugs.field(given),
    "vehicle.photos": (given) => photos.field(given),
    readings: (given) => window.loombookReadings.field(given),
    "housing.rows": (given) => plugs.rowsField(given),
    wire: () => ({ inline: true }),
    fuse: () => ({ inline: true }),
    function: () => ({ names: data.names.functions }),
    says: () => ({ names: data.names.functions }),
    state: () => ({ names: data.names.states }),
    quantity: () => ({ names: data.names.quantities }),
    tag: () => ({ offers: (given) => [form.get(given.record, given.path) || drafts.randomTag()] }),
    session: (given) => ({ offers: () => (given.record.sessions || []).map((one) => one.id).filter(Boolean) }),
    sessions: () => ({ fresh: function (given) {
      const list = form.get(given.record, given.path) || [], newest = list[list.length - 1];
      const one = form.skeleton(words.schemaAt("vehicle", ["sessions", 0]));
      return Object.assign(newest ? JSON.parse(JSON.stringify(newest)) : one, { id: "s" + (list.length + 1) });
    } })
  };

  function start() {
    const host = { draft: () => draft, changed: changed, again: again, toTop: toTop, special: special, housings: data.housings,
      kinds: data.kinds, hatch: data.hatch, names: Object.assign({ units: {} }, data.names) };
    Object.keys(data.names.quantities).forEach((name) => { host.names.units[name] = data.names.quantities[name].split(", ").pop(); });
    words.load(data.schemas);
    yaml.load(data.style);
    window.loombookReading.load(data.reading);
    window.loombookSaidWords.load(data.said);
    window.loombookLines.load(data.lines);
    window.loombookColumns.load(data.lines);
    window.loombookIdentify.load(window.loombookIdentifyData);
    rules.load(Object.assign({ kinds: window.loombookIdentifyData.kinds, names: data.names }, data.rules));
    form.load(host);
    window.loombookAboutPlug.load(host);
    plugs.load(host);
    photos.load(host);
    window.loombookReadings.load(host);
    at("new").addEventListener("click", fresh);
    at("leave").addEventListener("click", showDrafts);
    at("before").addEventListener("click", () => go(step - 1));
    at("after").addEventListener("click", () => go(step + 1));
    at("undo").addEventListener("click", back);
    at("redo").addEventListener("click", forward);
    document.addEventListener("keydown", keys);
    ["input", "focusin"].forEach((name) => at("fields").addEventListener(name, watchFields));
    at("toggle").addEventListener("click", () => at("nav").classList.toggle("maker-steps-open"));
    at("page").hidden = false;
    showDrafts();
  }

  if (data && at("page")) start();
})();
