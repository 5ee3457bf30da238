// A pin table pasted as text, from a mail or a notebook: shown as understood, line by line, before any of
// it is taken. What stands for two things is asked once for all lines; what is not taken stays in the
// field. The steps are those of builder/editing/interview (pasted, pins) and cli/pin_prompting.
(function () {
  "use strict";
  const form = window.loombookForm, lines = window.loombookLines, words = window.loombookSaidWords;
  const BREAKS = /\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]/, OLD = "keep the old", NEW = "take the new";
  const ui = { chosen: {}, said: "" };

  // ---- what the lines say --------------------------------------------------------------------------
  // `plugs`: [{id, shell}]; `here`: the plug that a line without a letter is about, or "".
  // {text, said} or {text, why}; {text, head} for a line that says which plug follows.
  function linesOf(text, plugs, here, meant) {
    const out = [], known = plugs.map((plug) => plug.id);
    let now = here || (plugs.length === 1 ? plugs[0].id : "");
    text.split(BREAKS).forEach(function (line) {
      const bare = line.replace(/^[\s>]*/, "").trim().replace(/^\|+|\|+$/g, "").trim(), head = lines.plugHead(bare);
      if (head && known.indexOf(head[1].toUpperCase()) >= 0) {
        now = head[1].toUpperCase();
        out.push({ text: line, head: now });
      } else if (bare && !isHeading(bare)) out.push(one(bare, plugs, now, meant));
    });
    return out;
  }

  function isHeading(line) {
    const found = line.toLowerCase().match(/[a-z]+/g) || [];
    return !/[0-9]/.test(line) && (!found.length || new Set(found.filter(lines.isHeadingWord)).size > 1);
  }

  function one(text, plugs, now, meant) {
    const here = plugs.filter((plug) => plug.id === now);
    let why = "";
    for (const each of here.length ? [here, plugs] : [plugs]) {
      try { return { text: text, said: inShell(lines.readPin(text, each.map((plug) => plug.id), meant), each) }; }
      catch (slip) { if (slip.why === undefined) throw slip; why = why || slip.why; }
    }
    return { text: text, why: why };
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

  // Each line with what becomes of it: values (null: empty), asked, why, or stands (an earlier line).
  function judged(text, given) {
    const seen = {};
    return linesOf(text, given.plugs, given.here, given.meant).map(function (line, index) {
      if (!line.said) return line;
      const place = line.said.plug + "." + line.said.cavity, key = index + " " + line.text;
      if (lines.asked(line.said).length) return Object.assign(line, { place: place, asked: lines.asked(line.said) });
      try { line.values = lines.pinOf(line.said); } catch (slip) { return { text: line.text, why: slip.why }; }
      const told = given.told(line.values), earlier = place in seen ? seen[place] : given.standing(line.said.plug, line.said.cavity);
      Object.assign(line, { place: place, told: told, key: key, stands: earlier !== told ? earlier : "" });
      if (!line.stands || ui.chosen[key] === NEW) seen[place] = told;
      return line;
    });
  }

  function isTaken(line) { return line.told !== undefined && (!line.stands || ui.chosen[line.key] === NEW); }

  function isOpen(line) { return !isTaken(line) && !line.head && !(line.stands && ui.chosen[line.key] === OLD); }

  // ---- the field -------------------------------------------------------------------------------------
  // `given`: {plugs, here, open, meant, text, keep(text), remember(word, meaning), forget(word), told(values),
  // standing(plug, cavity), take([line]), names}
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
    node.addEventListener("input", function () { ui.chosen = {}; ui.said = ""; given.keep(node.value); show(node, shown, given); });
    [label, form.element("p", "maker-help", "One wire a line: cavity, what it does, colours, size. Blanks, tabs, commas or semicolons between them."), node, shown]
      .forEach((part) => all.appendChild(part));
    show(node, shown, given);
    return all;
  }

  function show(node, shown, given) {
    const all = judged(node.value, given), taken = all.filter(isTaken), list = form.element("ol", "maker-lines"), say = form.element("p", "maker-help", summed(all, taken.length));
    const again = (focus) => { show(node, shown, given); const to = focus && document.getElementById(focus); if (to) to.focus(); };
    say.id = "maker-paste-said";
    say.setAttribute("role", "status");
    list.id = "maker-paste-lines";
    shown.textContent = "";
    shown.appendChild(say);
    askedWords(all).forEach((one) => shown.appendChild(question(one, given, again)));
    const read = readAs(all, given);
    if (read) shown.appendChild(form.element("p", "maker-help", "Read as: " + read + "."));
    remembered(given, again).forEach((one) => shown.appendChild(one));
    all.filter((line) => !line.head).forEach((line, index) => list.appendChild(lineItem(line, index, again)));
    if (list.childNodes.length) shown.appendChild(list);
    const press = form.button("Take " + (taken.length === 1 ? "this one" : "these " + taken.length), () => take(all, given), null, "strong");
    press.id = "maker-paste-take";
    press.disabled = !taken.length;
    shown.appendChild(press);
  }

  function summed(all, count) {
    const open = all.filter(isOpen), asked = open.filter((line) => line.asked || line.stands).length, wrong = open.length - asked;
    const parts = [[count, "understood"], [asked, "asked back"], [wrong, "not understood"]].filter((part) => part[0]).map((part) => part[0] + " " + part[1]);
    return (ui.said + " " + (parts.length ? parts.join(", ") + ". Nothing is taken yet." : "")).trim();
  }

  // The words of all lines that are asked back, each once.
  function askedWords(all) {
    const found = new Map();
    all.forEach((line) => (line.asked || []).forEach((one) => found.set(one.written, one)));
    return Array.from(found.values());
  }

  function question(one, given, again) {
    const box = form.element("div", "maker-choices"), id = "maker-paste-word-" + one.written.replace(/[^a-z0-9]/g, "_");
    box.setAttribute("role", "group");
    box.setAttribute("aria-labelledby", id);
    const text = form.element("span", "", "“" + one.written + "” could be " + words.choices(one.meant).join(" or ").replace(/_/g, " ") + ":");
    text.id = id;
    box.appendChild(text);
    one.meant.means.forEach((meaning) => box.appendChild(form.button(given.names[meaning] || meaning.replace(/-/g, " "), () => { given.remember(one.written, meaning); again("maker-paste-take"); }, null, "small")));
    return box;
  }

  // What was asked back before and is known now; pressed, it is asked again.
  function remembered(given, again) {
    const known = Object.keys(given.meant);
    if (!known.length) return [];
    const box = form.element("div", "maker-choices");
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
    what.appendChild(document.createTextNode(line.told !== undefined ? line.told : line.asked ? "asks: " + line.asked.map((one) => "“" + one.written + "”").join(", ") : "not taken: " + line.why));
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
    given.take(taken, left);
  }

  function leave() { ui.chosen = {}; ui.said = ""; }

  window.loombookPasted = { box: box, linesOf: linesOf, leave: leave };
})();
