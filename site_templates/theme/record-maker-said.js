// One cavity in two taps or one line: the chips of what most wires do, and a field that reads what is
// typed or spoken, "accessory yellow with red stripe", by the table of words. Nothing is taken before it
// is shown as understood; what stands for two things is asked back by buttons.
(function () {
  "use strict";
  const form = window.loombookForm, words = window.loombookSaidWords;
  const EMPTY = "empty", PAIRS = ["front-left", "front-right", "rear-left", "rear-right"];
  const CHIPS = ["constant", "accessory", "run", "retained", "ground", "illumination", "amplifier_on", "aerial_on", "not_used", "unknown"];

  function meansOf(found, kind) { return found.phrases.filter((one) => one.kind === kind).map((one) => one.meant.means[0]); }

  // What a line says of a pin: {empty, values} when all of it is sure, else {asked} or {why}.
  function pinOf(text) {
    const found = words.pinWords(text), asked = found.phrases.find((one) => !words.isSure(one.meant));
    if (asked) return { asked: asked };
    if (found.left.length) return { why: "not understood: “" + found.left.join(" ") + "”" };
    const does = meansOf(found, "function")[0], channel = meansOf(found, "channel")[0], leg = meansOf(found, "leg")[0];
    const colours = meansOf(found, "colour"), values = {};
    if (does === EMPTY) return { empty: true };
    if (!does && !channel && !colours.length) return { why: "say what the wire does, or its colours" };
    if (channel && !leg) return { why: "which leg: plus or minus?" };
    if (does || channel) values.function = does || "speaker";
    if ((does === "speaker" || does === "line") && !channel) return { why: "which speaker, and which leg?" };
    if (channel) Object.assign(values, { channel: channel, leg: leg });
    if (colours.length) values.wire = Object.assign({ base: colours[0] }, colours[1] ? { stripe: colours[1] } : {});
    return { values: values };
  }

  function told(values, names) {
    const wire = values.wire ? values.wire.base + (values.wire.stripe ? " with " + values.wire.stripe : "") : "";
    const does = values.function && [names[values.function], values.channel && values.channel.replace(/-/g, " "), values.leg].filter(Boolean).join(" ");
    return [does, wire].filter(Boolean).join(", ");
  }

  // `given`: {names, take(values), empty()}; both close the cavity.
  function box(given) {
    const all = form.element("div", "maker-said"), row = form.element("div", "maker-choices");
    row.setAttribute("role", "group");
    row.setAttribute("aria-label", "What most wires do");
    PAIRS.forEach((channel) => ["positive", "negative"].forEach(function (leg) {
      const short = channel.split("-").map((part) => part[0].toUpperCase()).join("") + (leg === "positive" ? " +" : " −");
      const chip = form.button(short, () => given.take({ function: "speaker", channel: channel, leg: leg }), null, "small");
      chip.setAttribute("aria-label", told({ function: "speaker", channel: channel, leg: leg }, given.names));
      row.appendChild(chip);
    }));
    CHIPS.forEach((one) => row.appendChild(form.button(given.names[one], () => given.take({ function: one }), null, "small")));
    row.appendChild(form.button("no terminal in it", given.empty, null, "small"));
    all.appendChild(line(given));
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
    label.htmlFor = node.id;
    say.id = "maker-heard";
    say.setAttribute("role", "status");
    press.type = "submit";
    press.id = "maker-say-take";
    function show() { hear(node, say, choices, given, show); }
    node.addEventListener("input", show);
    made.addEventListener("submit", function (event) {
      event.preventDefault();
      const found = pinOf(node.value);
      if (found.empty) given.empty();
      else if (found.values) given.take(found.values);
      else show();
    });
    [label, node, say, choices, press].forEach((one) => made.appendChild(one));
    return made;
  }

  function hear(node, say, choices, given, again) {
    const found = node.value.trim() ? pinOf(node.value) : {};
    choices.textContent = "";
    say.textContent = found.values ? told(found.values, given.names) : found.empty ? "empty: no terminal in it" : found.why || "";
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

  window.loombookPinSaid = { box: box, pinOf: pinOf };
})();
