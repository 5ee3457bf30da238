// A pin table pasted as text, from a mail or a notebook: shown as understood, line by line, before any of
// it is taken. What stands for two things is asked once for all lines; what is not taken stays in the
// field. The steps are those of builder/editing/interview (pasted, pins) and cli/pin_prompting.
(function () {
  "use strict";
  const form = window.loombookForm, lines = window.loombookLines, words = window.loombookSaidWords, columns = window.loombookColumns;
  const BREAKS = /\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]/, OLD = "keep the old", NEW = "take the new";
  const ui = { chosen: {}, said: "", agreed: [], refused: [], faces: {} };

  // ---- what stands above each line -----------------------------------------------------------------
  // The lines of a text in their order: {text, bare, here, faced, columns}, or {text, head: true} for what
  // says which plug, face or columns follow.
  function rowsOf(text, plugs, start) {
    const ids = plugs.map((plug) => plug.id), out = [], at = { here: start || (ids.length === 1 ? ids[0] : ""), columns: null, faced: null, common: null, fresh: false };
    function face(named) {
      if (!named.length) return;
      at.faced = { written: named.map((one) => one.written).join(", "), faces: Array.from(new Set([].concat.apply([], named.map((one) => one.faces)))) };
      at.fresh = true;
      if (!at.here) at.common = at.faced;
    }
    function isAboutFace(line) {
      const place = lines.placeOf(line, ids);
      return columns.facesIn(line).length > 0 && !(place && /^[0-9]+$/.test(place.cavity));
    }
    function headOf(line) {
      const found = lines.plugHead(line) || (isAboutFace(line) ? lines.facedHead(line) : null), letter = found ? found[1].toUpperCase() : "";
      return ids.indexOf(letter) >= 0 ? letter : "";
    }
    text.split(BREAKS).forEach(function (line) {
      const bare = line.replace(/^[\s>]*/, "").trim().replace(/^\|+|\|+$/g, "").trim(), heading = columns.headingOf(bare), head = headOf(bare);
      if (heading) {
        at.columns = heading;
        face(columns.facesOf(heading, plugs.filter((plug) => !at.here || plug.id === at.here).map((plug) => plug.face)));
        out.push({ text: line, head: true, columns: heading });
      } else if (head || isAboutFace(bare)) {
        if (head && head !== at.here) Object.assign(at, { here: head, faced: at.common, fresh: false });
        face(columns.facesIn(bare));
        out.push({ text: line, head: true });
      } else if (/[a-z0-9]/i.test(bare)) {
        out.push({ text: bare, here: at.here, faced: at.faced, columns: at.columns });
        at.fresh = false;
      }
    });
    // A face that is said below a table is that of its lines.
    if (at.fresh) out.forEach((row) => { if (!row.head && row.here === at.here) row.faced = row.faced || at.faced; });
    return out;
  }

  // ---- what the lines say --------------------------------------------------------------------------
  // `plugs`: [{id, shell, face, stands}]; `here`: the plug that a line without a letter is about, or "";
  // `refused`: columns that were judged and are not so. {text, said, here, faced} or {text, why, here, faced},
  // with `judged` for columns that nobody said; {text, head} for a line above others.
  function linesOf(text, plugs, here, meant, refused) {
    const rows = rowsOf(text, plugs, here), out = [];
    for (let from = 0; from < rows.length;) {
      if (rows[from].head) { out.push(rows[from++]); continue; }
      const first = rows[from], isOf = (row) => !row.head && row.here === first.here && row.columns === first.columns, group = [], heads = [];
      // A line above others may stand between lines of one group: a blank heading of nothing new.
      while (from < rows.length && (isOf(rows[from]) || rows[from].head)) { if (!rows[from].head) group.push(rows[from]); heads.push(rows[from]); from++; }
      const read = first.columns ? group.map((row) => one(row, first.columns, plugs, meant)) : better(group, plugs, meant, refused || []);
      let at = 0;
      heads.forEach((row) => out.push(row.head ? row : read[at++]));
    }
    return out;
  }

  // Lines read by columns that are judged, where most are none as they stand.
  function better(group, plugs, meant, refused) {
    const read = group.map((row) => one(row, null, plugs, meant)), count = (all) => all.filter(isPin).length;
    if (count(read) * 2 >= read.length || read.length < 2) return read;
    const judgedAs = columns.judged(group.map((row) => row.text), plugs.map((plug) => plug.id));
    if (!judgedAs || refused.indexOf(columns.told(judgedAs)) >= 0) return read;
    const others = group.map((row) => Object.assign(one(row, judgedAs, plugs, meant), { judged: columns.told(judgedAs) }));
    return count(others) > count(read) ? others : read;
  }

  function isPin(line) {
    if (!line.said) return false;
    if (lines.asked(line.said).length) return true;
    try { lines.pinOf(line.said); return true; } catch (slip) { if (slip.why === undefined) throw slip; return false; }
  }

  function one(row, read, plugs, meant) {
    const faceOf = {}, here = plugs.filter((plug) => plug.id === row.here), made = { text: row.text, here: row.here, faced: row.faced };
    plugs.forEach((plug) => { faceOf[plug.id] = plug.face; });
    const line = read ? columns.inOrder(row.text, read, faceOf, row.here) : null;
    if (line === "") return Object.assign(made, { why: "which of its columns is the cavity? say the plug's face first" });
    let why = "";
    for (const each of here.length ? [here, plugs] : [plugs]) {
      try { return Object.assign(made, { said: inShell(lines.readPin(line || row.text, each.map((plug) => plug.id), meant), each) }); }
      catch (slip) { if (slip.why === undefined) throw slip; why = why || slip.why; }
    }
    return Object.assign(made, { why: why });
  }

  function inShell(found, plugs) {
    const plug = plugs.find((each) => each.id === found.plug), name = String(found.cavity);
    if (!plug) lines.refuse("no plug " + found.plug + " is described");
    if (!plug.shell) return found;
    const all = plug.shell.rows.reduce((list, row) => list.concat(row.filter((cell) => cell !== null)), []);
    if (all.indexOf(name) < 0) lines.refuse("plug " + plug.id + " has no cavity " + name + ": its housing has " + all[0] + " to " + all[all.length - 1]);
    if (plug.shell.blocked.indexOf(name) >= 0) lines.refuse(plug.id + "." + name + " is moulded shut in its housing");
    return found;
  }

  // Each line with what becomes of it: values (null: empty), asked, why, stands (an earlier line), or waits
  // for an answer about its table.
  function judged(all, given) {
    const seen = {};
    return all.map((line) => line.head ? line : columns.settled(line, given.plugs, ui.faces)).map(function (line, index) {
      if (!line.said) return line;
      const place = line.said.plug + "." + line.said.cavity, key = index + " " + line.text;
      if (lines.asked(line.said).length) return Object.assign(line, { place: place, asked: lines.asked(line.said) });
      try { line.values = lines.pinOf(line.said); } catch (slip) { return { text: line.text, why: slip.why }; }
      const told = given.told(line.values), earlier = place in seen ? seen[place] : given.standing(line.said.plug, line.said.cavity);
      Object.assign(line, { place: place, told: told, key: key, stands: earlier !== told ? earlier : "", waits: Boolean(line.judged) && ui.agreed.indexOf(line.judged) < 0 });
      if (!line.stands || ui.chosen[key] === NEW) seen[place] = told;
      return line;
    });
  }

  function isTaken(line) { return line.told !== undefined && !line.waits && (!line.stands || ui.chosen[line.key] === NEW); }

  function isOpen(line) { return !isTaken(line) && !line.head && !(line.stands && ui.chosen[line.key] === OLD); }

  // ---- the field -------------------------------------------------------------------------------------
  // `given`: {plugs, here, open, meant, text, keep(text), remember(word, meaning), forget(word), told(values),
  // standing(plug, cavity), setFace(plug, face), take([line]), names}
  function box(given) {
    const all = form.element("details", "maker-part maker-paste"), label = form.element("label", "maker-label", "The lines as they stand in a mail or a notebook");
    const node = form.element("textarea"), shown = form.element("div", "maker-pasted");
    all.id = "maker-paste-box";
    all.open = Boolean(given.text || ui.said || given.open);
    all.appendChild(form.element("summary", "", given.here ? "Paste a pin table of plug " + given.here : "Paste pin tables: “Plug A:” above its lines says which plug they are of"));
    node.id = "maker-paste";
    node.rows = Math.min(16, Math.max(5, given.text.split(BREAKS).length + 1));
    node.autocapitalize = "none";
    node.autocomplete = "off";
    node.spellcheck = false;
    node.value = given.text;
    label.htmlFor = node.id;
    node.addEventListener("input", function () { ui.chosen = {}; ui.said = ""; if (!node.value.trim()) forgetTable(); given.keep(node.value); show(node, shown, given); });
    [label, form.element("p", "maker-help", "One wire a line: cavity, what it does, colours, size. Blanks, tabs, commas or semicolons between them."), node, shown]
      .forEach((part) => all.appendChild(part));
    show(node, shown, given);
    return all;
  }

  function show(node, shown, given) {
    const read = linesOf(node.value, given.plugs, given.here, given.meant, ui.refused), all = judged(read, given), taken = all.filter(isTaken), list = form.element("ol", "maker-lines"), say = form.element("p", "maker-help", summed(all, taken.length));
    const again = (focus) => { show(node, shown, given); const to = focus && document.getElementById(focus); if (to) to.focus(); };
    say.id = "maker-paste-said";
    say.setAttribute("role", "status");
    list.id = "maker-paste-lines";
    shown.textContent = "";
    shown.appendChild(say);
    askedColumns(read).forEach((one) => shown.appendChild(columnsQuestion(one, again)));
    columns.facesAsked(read, given.plugs).filter((one) => !isSettled(one, given)).forEach((one) => shown.appendChild(faceQuestion(one, given, again)));
    askedWords(all).forEach((one) => shown.appendChild(question(one, given, again)));
    const short = readAs(all, given);
    if (short) shown.appendChild(form.element("p", "maker-help", "Read as: " + short + "."));
    read.filter((line) => line.columns).forEach((line) => shown.appendChild(headingLine(line.columns)));
    remembered(given, read, again).forEach((one) => shown.appendChild(one));
    all.filter((line) => !line.head).forEach((line, index) => list.appendChild(lineItem(line, index, again)));
    if (list.childNodes.length) shown.appendChild(list);
    const press = form.button("Take " + (taken.length === 1 ? "this one" : "these " + taken.length), () => take(all, given), null, "strong");
    press.id = "maker-paste-take";
    press.disabled = !taken.length;
    shown.appendChild(press);
  }

  function summed(all, count) {
    const open = all.filter(isOpen), asked = open.filter((line) => line.asked || line.stands || line.waits).length, wrong = open.length - asked;
    const parts = [[count, "understood"], [asked, "asked back"], [wrong, "not understood"]].filter((part) => part[0]).map((part) => part[0] + " " + part[1]);
    return (ui.said + " " + (parts.length ? parts.join(", ") + ". Nothing is taken yet." : "")).trim();
  }

  // The words of all lines that are asked back, each once.
  function askedWords(all) {
    const found = new Map();
    all.forEach((line) => (line.asked || []).forEach((one) => found.set(one.written, one)));
    return Array.from(found.values());
  }

  // A question with its text, for buttons behind it.
  function asking(name, text) {
    const box = form.element("div", "maker-choices"), said = form.element("span", "", text);
    said.id = "maker-paste-" + name.replace(/[^A-Za-z0-9]/g, "_");
    box.setAttribute("role", "group");
    box.setAttribute("aria-labelledby", said.id);
    box.appendChild(said);
    return box;
  }

  // Columns that nobody said and nobody agreed to yet, each once.
  function askedColumns(read) {
    return Array.from(new Set(read.map((line) => line.judged).filter((told) => told && ui.agreed.indexOf(told) < 0)));
  }

  function columnsQuestion(told, again) {
    const box = asking("columns-" + told, "No heading says what the columns are. From left to right: " + told + "?");
    box.appendChild(form.button("So it is", () => { ui.agreed.push(told); again("maker-paste-take"); }, null, "small"));
    box.appendChild(form.button("Otherwise", () => { ui.refused.push(told); again("maker-paste"); }, null, "small"));
    return box;
  }

  function headingLine(heading) {
    const left = columns.notRead(heading);
    return form.element("p", "maker-help", "Columns: " + columns.told(heading) + (left.length ? ". Not read: " + left.join(", ") : "") + ".");
  }

  // Whether a face was chosen, and its plug still has the face with which it was.
  function isSettled(one, given) {
    return one.key in ui.faces && columns.wayOf(given.plugs.find((plug) => plug.id === one.plug), ui.faces[one.key]) !== "set";
  }

  // Which face lines were counted on, where their heading does not say that of their plug.
  function faceQuestion(one, given, again) {
    const plug = given.plugs.find((each) => each.id === one.plug), isSaid = plug.face && plug.face !== "unknown";
    const box = asking("face-" + one.key, "The table says “" + one.written + "” of plug " + one.plug + (isSaid ? "; you said " + columns.faceName(plug.face) : "") + ". On which face were its cavities counted?");
    one.choices.forEach(function (face) {
      const way = columns.wayOf(plug, face);
      box.appendChild(form.button(columns.faceName(face) + (way === "turn" ? ": turn its cavities" : ""), function () {
        ui.faces[one.key] = face;
        if (way === "set") given.setFace(plug.id, face);
        else again("maker-paste-take");
      }, null, "small"));
    });
    return box;
  }

  function question(one, given, again) {
    const box = asking("word-" + one.written, "“" + one.written + "” could be " + words.choices(one.meant).join(" or ").replace(/_/g, " ") + ":");
    one.meant.means.forEach((meaning) => box.appendChild(form.button(given.names[meaning] || meaning.replace(/-/g, " "), () => { given.remember(one.written, meaning); again("maker-paste-take"); }, null, "small")));
    return box;
  }

  // What was asked back before and is known now; pressed, it is asked again.
  function remembered(given, read, again) {
    const known = Object.keys(given.meant), faces = columns.facesAsked(read, given.plugs).filter((one) => isSettled(one, given));
    if (!known.length && !faces.length) return [];
    const box = form.element("div", "maker-choices");
    faces.forEach((one) => box.appendChild(form.button("plug " + one.plug + ", “" + one.written + "”: " + columns.faceName(ui.faces[one.key]), () => { delete ui.faces[one.key]; again("maker-paste"); }, null, "small")));
    known.forEach(function (word) {
      const press = form.button(word + " is " + (given.names[given.meant[word]] || given.meant[word]), () => { given.forget(word); again("maker-paste"); }, null, "small");
      press.setAttribute("aria-label", word + " is " + given.meant[word] + ": ask again");
      box.appendChild(press);
    });
    return [form.element("p", "maker-help", "You said (press to be asked again):"), box];
  }

  function readAs(all, given) {
    const found = new Map();
    all.filter(isTaken).forEach((line) => lines.shortWords(line.said, given.meant).forEach((one) => found.set(one.written, one.meant.means[0])));
    return Array.from(found).map((pair) => pair[0] + " " + pair[1]).join(", ");
  }

  function lineItem(line, index, again) {
    const item = form.element("li", isTaken(line) ? "" : "maker-open"), what = form.element("span");
    item.appendChild(form.element("small", "", line.text));
    what.appendChild(form.element("strong", "", line.place ? line.place + " " : ""));
    if (line.from !== undefined) what.appendChild(document.createTextNode("(" + line.from + " from the other face) "));
    what.appendChild(document.createTextNode(line.waits && line.told === undefined ? "asks: " + line.why : line.told !== undefined ? line.told : line.asked ? "asks: " + line.asked.map((one) => "“" + one.written + "”").join(", ") : "not taken: " + line.why));
    item.appendChild(what);
    if (line.stands) item.appendChild(decision(line, index, again));
    return item;
  }

  function decision(line, index, again) {
    const row = form.element("div", "maker-choices");
    row.setAttribute("role", "group");
    row.setAttribute("aria-label", line.place + " stands already");
    row.appendChild(form.element("span", "", line.place + " stands already: “" + line.stands + "”"));
    [OLD, NEW].forEach(function (way, at) {
      const press = form.button(way, () => { ui.chosen[line.key] = way; again(press.id); }, ui.chosen[line.key] === way, "small");
      press.id = "maker-paste-" + index + "-" + at;
      row.appendChild(press);
    });
    return row;
  }

  function take(all, given) {
    const taken = all.filter(isTaken), open = all.some(isOpen), left = open ? all.filter((line) => line.head || isOpen(line)).map((line) => line.text).join("\n") : "";
    const count = taken.length + (taken.length === 1 ? " pin is taken." : " pins are taken.");
    ui.said = count + (open ? " What is left stands here; write it out, or clear the field." : "");
    ui.chosen = {};
    if (!left) forgetTable();
    given.take(taken, left);
  }

  // What was said of one table holds for no other: its heading may say the same.
  function forgetTable() { Object.assign(ui, { agreed: [], refused: [], faces: {} }); }

  function leave() { Object.assign(ui, { chosen: {}, said: "" }); forgetTable(); }

  window.loombookPasted = { box: box, linesOf: linesOf, leave: leave };
})();
