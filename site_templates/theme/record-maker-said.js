// One cavity in two taps or one line: the chips of what most wires do, and a field that reads what is
// typed or spoken, "accessory yellow with red stripe", by the table of words. Nothing is taken before it
// is shown as understood; what stands for two things is asked back by buttons.
(function () {
  "use strict";
  const form = window.loombookForm, words = window.loombookSaidWords, lines = window.loombookLines;
  const PAIRS = ["front-left", "front-right", "rear-left", "rear-right"];
  const CHIPS = ["constant", "accessory", "run", "retained", "ground", "illumination", "amplifier_on", "aerial_on", "not_used", "unknown"];

  // What a line says of a pin: {empty, values} when all of it is sure, else {asked} or {why}. Colours
  // alone are enough: what the wire does may have been said before.
  function pinOf(text, meant) {
    try {
      const found = lines.readWords(text, meant || {}), asked = lines.asked(found)[0], kinds = found.phrases.map((one) => one.kind);
      if (asked) return { asked: asked };
      const bare = kinds.length && kinds.every((kind) => kind === "colour") && !found.left.length;
      if (!bare && !kinds.length && !found.left.length) return { why: "say what the wire does, or its colours" };
      const values = bare ? wireOf(found) : lines.pinOf(found);
      return values ? { values: values } : { empty: true };
    } catch (slip) {
      if (slip.why === undefined) throw slip;
      return { why: slip.why };
    }
  }

  function wireOf(found) {
    const wire = found.phrases.map((one) => one.meant.means[0]);
    const only = found.trims.length ? { only_if: { trims: found.trims } } : {};
    return Object.assign({ wire: Object.assign({ base: wire[0] }, wire[1] ? { stripe: wire[1] } : {}, found.size) }, only);
  }

  function told(values, names) {
    if (!values) return "empty: no terminal in it";
    const wire = values.wire ? values.wire.base + (values.wire.stripe ? " with " + values.wire.stripe : "") : "", size = values.wire || {};
    const does = values.function && [names[values.function], values.channel && values.channel.replace(/-/g, " "), values.leg].filter(Boolean).join(" ");
    const trims = (values.only_if && values.only_if.trims) || [], only = trims.length ? "only in " + trims.join(" and ") : "";
    return [does, wire, size.size_mm2 ? size.size_mm2 + " mm²" : "", size.size_awg ? size.size_awg + " AWG" : "", only].filter(Boolean).join(", ");
  }

  // `given`: {names, meant, take(values), empty()}; both close the cavity. A chip takes the colours
  // along that stand in the line; a line that is not understood keeps it from closing.
  function box(given) {
    const all = form.element("div", "maker-said"), row = form.element("div", "maker-choices maker-chips"), typed = line(given);
    row.setAttribute("role", "group");
    row.setAttribute("aria-label", "What most wires do");
    PAIRS.forEach((channel) => ["positive", "negative"].forEach(function (leg) {
      const short = channel.split("-").map((part) => part[0].toUpperCase()).join("") + (leg === "positive" ? " +" : " −");
      const chip = form.button(short, () => typed.beside({ function: "speaker", channel: channel, leg: leg }), null, "small");
      chip.setAttribute("aria-label", told({ function: "speaker", channel: channel, leg: leg }, given.names));
      row.appendChild(chip);
    }));
    CHIPS.forEach((one) => row.appendChild(form.button(given.names[one], () => typed.beside({ function: one }), null, "small")));
    row.appendChild(form.button("no terminal in it", given.empty, null, "small"));
    all.appendChild(typed.form);
    all.appendChild(row);
    return all;
  }

  function line(given) {
    const made = form.element("form", "maker-line"), node = form.element("input"), say = form.element("p", "maker-help"), label = form.element("label", "maker-label", "Type or say it: what it does, then its colours");
    const choices = form.element("div", "maker-choices"), press = form.button("Take it", () => {}, null, "strong");
    node.id = "maker-say";
    node.autocomplete = "off";
    node.autocapitalize = "none";
    node.spellcheck = false;
    node.enterKeyHint = "done";
    label.htmlFor = node.id;
    say.id = "maker-heard";
    say.setAttribute("role", "status");
    press.type = "submit";
    press.id = "maker-say-take";
    function show() { hear(node, say, choices, given, show); }
    node.addEventListener("input", show);
    made.addEventListener("submit", function (event) {
      event.preventDefault();
      const found = pinOf(node.value, given.meant);
      if (found.empty) given.empty();
      else if (found.values) given.take(found.values);
      else show();
    });
    [label, node, press, say, choices].forEach((one) => made.appendChild(one));
    return { form: made, beside: (values) => besideLine(node, values, given, show) };
  }

  function besideLine(node, values, given, show) {
    const found = node.value.trim() ? pinOf(node.value, given.meant) : { values: {} };
    if (found.values && !found.values.function) given.take(Object.assign({}, found.values, values));
    else if (found.values) given.take(values);
    else { show(); node.focus(); }
  }

  function hear(node, say, choices, given, again) {
    const found = node.value.trim() ? pinOf(node.value, given.meant) : {};
    choices.textContent = "";
    say.textContent = found.values ? told(found.values, given.names) : found.empty ? told(null) : found.why || "";
    if (!found.asked) return;
    say.textContent = "“" + found.asked.written + "” could be " + words.choices(found.asked.meant).join(" or ").replace(/_/g, " ") + ":";
    found.asked.meant.means.forEach((one) => choices.appendChild(form.button(given.names[one] || one, function () {
      node.value = meaning(node.value, found.asked.written, one);
      again();
      node.focus();
    }, null, "small")));
  }

  // The line with a word written out; the word stands by itself in it, or beside a stroke.
  function meaning(text, written, one) {
    const plain = written.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/ /g, "\\s*");
    return text.replace(new RegExp("(^|[\\s/,-])" + plain + "(?=$|[\\s/,.-])", "i"), "$1" + one.replace(/_/g, " "));
  }

  window.loombookPinSaid = { box: box, pinOf: pinOf, told: told };
})();
