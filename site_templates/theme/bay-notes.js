/* A note and photos at the step or line that bay mode shows; the sheet keeps the note and the names
   of the photos, the browser's database the photos. */
window.loombookNotes = (function () {
  "use strict";
  var element = window.loombookElement, sheet = window.loombookSheet, photos = window.loombookPhotos;
  if (!sheet || !photos) {
    return null;
  }

  /* What a note is filed under: the line by its name, the step in its words. */
  function filed(screen) {
    return screen.ask ? screen.ask.test : window.loombookStepName(screen.node);
  }

  function noted(at) {
    var notes = sheet.notes();
    return notes[at] || { note: "", photos: [] };
  }

  function change(at, made) {
    var notes = sheet.notes();
    if (made.note || made.photos.length) {
      notes[at] = made;
    } else {
      delete notes[at];
    }
    sheet.keep();
  }

  function nameOf(at) {
    var taken = [].concat.apply([], Object.keys(sheet.notes()).map(function (each) { return noted(each).photos; }));
    var start = sheet.name + "-" + at.replace(/:.*/, "").replace(/[^A-Za-z0-9]+/g, "-").slice(0, 40), number = 1;
    while (taken.indexOf(start + "-" + number + ".jpg") >= 0) {
      number += 1;
    }
    return start + "-" + number + ".jpg";
  }

  function add(at, file, told) {
    photos.small(file).then(function (blob) {
      var name = nameOf(at), made = noted(at);
      return photos.put(sheet.key + "/" + name, blob).then(function (kept) {
        change(at, { note: made.note, photos: made.photos.concat(name) });
        told(kept === "visit" ? "This browser keeps photos only until you leave the page. " : "");
      });
    }, function () { told("That is no picture this browser can read. "); });
  }

  function remove(at, told) {
    var made = noted(at), name = made.photos[made.photos.length - 1];
    photos.drop(sheet.key + "/" + name).then(function () {
      change(at, { note: made.note, photos: made.photos.slice(0, -1) });
      told("");
    });
  }

  function field(at) {
    var wrap = element("label", "", "bay-field"), input = element("input");
    input.type = "text";
    input.value = noted(at).note;
    input.maxLength = 300;
    input.addEventListener("input", function () {
      change(at, { note: input.value.trim(), photos: noted(at).photos });
    });
    wrap.append(element("span", "Note"), input);
    return wrap;
  }

  /* The fields under a screen. They are made anew for each, so that no screen shows another's. */
  function fields(screen) {
    var at = filed(screen), made = element("div", "", "bay-notes");
    var pick = element("label", "Photo", "button"), input = element("input"), less = element("button", "Remove the last", "button");
    var said = element("span", "", "bay-photos");
    function tell(first) {
      var count = noted(at).photos.length;
      said.textContent = first + (count ? count + (count === 1 ? " photo" : " photos") : "");
      less.hidden = !count;
    }
    said.setAttribute("role", "status");
    input.type = "file";
    input.accept = "image/*";
    input.setAttribute("capture", "environment");
    input.addEventListener("change", function () {
      if (input.files[0]) {
        add(at, input.files[0], tell);
      }
      input.value = "";
    });
    less.type = "button";
    less.addEventListener("click", function () { remove(at, tell); });
    pick.append(input);
    made.append(field(at), pick, less, said);
    tell("");
    return made;
  }

  return { fields: fields };
})();
