// Photos taken beside a draft: made small and bare of place, time and device (bay-photos.js), kept in the
// browser's database under the draft, named here, and listed in the record as photos are. A photo that is
// taken out of the list stays until the draft is gone, so that undo brings it back.
(function () {
  "use strict";
  const form = window.loombookForm, store = window.loombookPhotos, drafts = window.loombookDrafts;
  const FACES = ["from the wire side", "from the mating side"], THUMBNAIL = 160, LICENCE = "CC0-1.0";
  let host = null, said = "", onlyNow = false;

  function load(given) { host = given; }

  function keyOf(draft, name) { return "maker:" + draft.key + "/" + name; }

  // Names of the photos that were taken here, whether the record still lists them or not.
  function taken(draft) { return Array.isArray(draft.photos) ? draft.photos.filter((name) => typeof name === "string") : []; }

  function listed(draft) { return Array.isArray(draft.record.photos) ? draft.record.photos.filter((one) => one && typeof one.file === "string") : []; }

  // Those of the record that should lie in this browser.
  function ours(draft) { return listed(draft).map((one) => one.file).filter((name) => taken(draft).indexOf(name) >= 0); }

  function freeName(draft, about) {
    const car = (draft.record.id || "car-" + draft.key).slice(0, 60), start = car + (about ? "-" + about.toLowerCase().replace(/[^a-z0-9]+/g, "-") : "");
    const all = taken(draft).concat(listed(draft).map((one) => one.file));
    let number = 1;
    while (all.indexOf(start + "-" + number + ".jpg") >= 0) number++;
    return start + "-" + number + ".jpg";
  }

  // ---- taking one ------------------------------------------------------------------------------------
  function take(file, about, focus) {
    const draft = host.draft();
    store.small(file).then(function (blob) {
      const name = freeName(draft, about);
      return store.put(keyOf(draft, name), blob).then(function (kept) {
        onlyNow = onlyNow || kept === "visit";
        said = onlyNow ? "This browser keeps photos only until you leave the page: download the draft with them before." : "Kept on this device as " + name + ".";
        draft.photos = taken(draft).concat(name);
        draft.record.photos = listed(draft).concat({ file: name, shows: about || "the car" });
        if (host.draft() !== draft) { drafts.keep(draft); return; }
        host.again(focus);
        host.changed();
      });
    }, function () { said = "That is no picture this browser can read."; host.again(focus); });
  }

  // The button that opens the camera; `about` is "plug A", or "" for what is said afterwards.
  function camera(id, about) {
    const row = form.element("div", "maker-choices"), pick = form.element("label", "button", "Take a photo"), input = form.element("input"), say = form.element("span", "maker-help", said);
    input.type = "file";
    input.accept = "image/*";
    input.setAttribute("capture", "environment");
    input.id = id;
    input.addEventListener("change", function () { if (input.files[0]) take(input.files[0], about, id); input.value = ""; });
    say.id = id + "-said";
    say.setAttribute("role", "status");
    pick.appendChild(input);
    row.appendChild(pick);
    row.appendChild(say);
    return row;
  }

  // ---- showing them --------------------------------------------------------------------------------
  function thumbnail(name) {
    const canvas = form.element("canvas", "maker-photo"), draft = host.draft();
    canvas.width = canvas.height = 0;
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", name);
    find(draft, name).then((blob) => blob ? createImageBitmap(blob) : null).then(function (picture) {
      if (!picture) { canvas.replaceWith(form.element("p", "maker-slip", "This browser has lost the photo " + name + ": take it again, or remove it.")); return; }
      const share = THUMBNAIL / Math.max(picture.width, picture.height);
      canvas.width = Math.max(1, Math.round(picture.width * share));
      canvas.height = Math.max(1, Math.round(picture.height * share));
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    });
    return canvas;
  }

  function find(draft, name) { return store.get(keyOf(draft, name)).catch(() => null); }

  // The list of the record, with the camera before it and each photo that lies here in its card.
  function field(at) {
    const box = form.field(Object.assign({}, at, { asWritten: true })), draft = host.draft(), mine = ours(draft);
    listed(draft).forEach(function (one, index) {
      const inside = box.querySelector("[data-path='" + JSON.stringify(["photos", index, "file"]) + "']"), input = inside && inside.querySelector("input");
      if (!input || mine.indexOf(one.file) < 0) return;
      input.readOnly = true; // it is the name under which the photo is kept
      inside.insertBefore(thumbnail(one.file), inside.firstChild);
    });
    box.insertBefore(camera("maker-photo", ""), box.querySelector(".maker-help").nextSibling);
    return box;
  }

  // The photos of one plug, in its own part of the page.
  function plugPart(plug) {
    const draft = host.draft(), about = "plug " + (plug.id || ""), part = form.element("details", "maker-part"), mine = ours(draft);
    const here = listed(draft).filter((one) => (one.shows + " ").indexOf(about + " ") === 0 && mine.indexOf(one.file) >= 0);
    part.appendChild(form.element("summary", "", "Photos of " + about + (here.length ? ": " + here.length : "")));
    part.open = Boolean(here.length || said);
    part.appendChild(form.element("p", "maker-help", "No number plate, no paper, nobody in it. Place, time and device are left out. Pages show it only if who took it and whose car it is agree."));
    here.forEach((one) => part.appendChild(card(one, about)));
    part.appendChild(camera("maker-plug-photo", about));
    return part;
  }

  // Who measured took the photos, as far as the draft says.
  function takenBy() {
    const visit = (host.draft().record.sessions || [])[0];
    return visit && visit.by ? { by: visit.by } : {};
  }

  function card(one, about) {
    const box = form.element("div", "maker-card"), row = form.element("div", "maker-choices");
    function set(shows) { one.shows = shows; said = ""; host.again(document.activeElement && document.activeElement.id); host.changed(); }
    FACES.forEach(function (face, index) {
      const whole = about + " " + face, press = form.button(face, () => set(one.shows === whole ? about : whole), one.shows === whole, "small");
      press.id = "maker-shows-" + one.file + "-" + index;
      row.appendChild(press);
    });
    // One press says that it may be shown; pressed again, or never, it stays unseen.
    const leave = form.button("may be shown, " + LICENCE, function () {
      if (one.consent === "yes") ["plug", "by", "licence", "consent"].forEach((key) => delete one[key]);
      else Object.assign(one, { plug: about.slice(5) }, takenBy(), { licence: LICENCE, consent: "yes" });
      said = "";
      host.again(leave.id);
      host.changed();
    }, one.consent === "yes", "small");
    leave.id = "maker-leave-" + one.file;
    row.appendChild(leave);
    const gone = form.button("Remove", function () {
      const record = host.draft().record;
      record.photos = record.photos.filter((other) => other !== one);
      if (!record.photos.length) delete record.photos;
      said = "";
      host.again("maker-plug-photo");
      host.changed();
    }, null, "small");
    gone.setAttribute("aria-label", "Remove " + one.file);
    row.appendChild(gone);
    [thumbnail(one.file), form.element("p", "maker-help", one.file), row].forEach((each) => box.appendChild(each));
    return box;
  }

  // ---- giving them out -------------------------------------------------------------------------------
  // [{name, bytes}] of a draft in one promise, and which names are lost: {files, lost}.
  function bytes(draft) {
    const read = (name) => find(draft, name).then((blob) => blob ? blob.arrayBuffer() : null).then((content) => ({ name: name, bytes: content && new Uint8Array(content) }));
    return Promise.all(ours(draft).map(read)).then((all) => ({ files: all.filter((one) => one.bytes), lost: all.filter((one) => !one.bytes).map((one) => one.name) }));
  }

  // Forget the photos of a draft for good.
  function forget(draft) { taken(draft).forEach((name) => store.drop(keyOf(draft, name))); }

  // What the state of the page says of them.
  function warning() { return onlyNow && ours(host.draft()).length ? " Photos are kept only until you leave the page." : ""; }

  function leave() { said = ""; }

  window.loombookMakerPhotos = { load: load, field: field, plugPart: plugPart, ours: ours, bytes: bytes, forget: forget, warning: warning, leave: leave, zip: store.zip };
})();
