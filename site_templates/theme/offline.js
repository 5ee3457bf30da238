/* Saves the site for work without a signal, and says so only when it is so. */
(function () {
  "use strict";
  var line = document.querySelector("[data-offline]");
  var root = new URL("..", document.currentScript.src);
  if (!line || root.protocol.indexOf("http") !== 0) {
    return; // from a stick everything is there anyhow
  }
  var link = document.createElement("link");
  link.rel = "manifest";
  link.href = new URL("manifest.webmanifest", root).href;
  document.head.appendChild(link);
  if (!("serviceWorker" in navigator)) {
    return;
  }
  var more = document.querySelector("[data-offline-all]");
  var replaced = false;

  function say(words, bad) {
    line.textContent = words;
    line.classList.toggle("lb-not-saved", Boolean(bad));
    line.hidden = false;
  }

  function ask(worker, question) {
    return new Promise(function (resolve, reject) {
      var channel = new MessageChannel();
      channel.port1.onmessage = function (event) {
        if (event.data.failed) {
          reject(new Error(event.data.failed));
        } else {
          resolve(event.data);
        }
      };
      worker.postMessage(question, [channel.port2]);
    });
  }

  function describe(found) {
    var words = "Saved for use without a signal, data of " + (found.data_of || "no date");
    if (!found.whole) {
      words += ": lists, and " + found.kept + " of " + found.cars + " car pages";
    }
    return words;
  }

  function show(registration, found) {
    say(describe(found) + (replaced ? ". This page is older: load it again" : ""));
    if (more && !found.whole) {
      more.hidden = false;
      more.querySelector("button").onclick = function () { saveAll(registration); };
    } else if (more) {
      more.hidden = true;
    }
  }

  /* A device may have thrown the files away and kept the worker: then they are fetched again. */
  function look(registration) {
    var worker = registration.active;
    return ask(worker, "state").then(function (found) {
      return found.saved ? found : ask(worker, "again");
    }).then(function (found) {
      if (found.saved) {
        show(registration, found);
      }
    }, failed);
  }

  function failed() {
    say("Not saved for use without a signal: a file did not arrive. It is tried again with the next page", true);
  }

  function saveAll(registration) {
    var button = more.querySelector("button"), status = more.querySelector("[role=status]");
    button.disabled = true;
    if (navigator.storage && navigator.storage.persist) {
      navigator.storage.persist();
    }
    function next() {
      return ask(registration.active, "more").then(function (found) {
        status.textContent = (found.of - found.left) + " of " + found.of;
        return found.left ? next() : look(registration);
      });
    }
    next().catch(function () {
      button.disabled = false;
      status.textContent = "Stopped: a file did not arrive, or there is no room. What came is kept; press again.";
    });
  }

  /* New data takes over once this page has all its own files; a page that is open stays as it is. */
  function takeOver(worker) {
    if (document.readyState === "complete") {
      ask(worker, "take over");
    } else {
      addEventListener("load", function () { ask(worker, "take over"); });
    }
  }

  function watch(registration, worker) {
    worker.addEventListener("statechange", function () {
      if (worker.state === "installed" && registration.active) {
        takeOver(worker);
      } else if (worker.state === "activated") {
        look(registration);
      } else if (worker.state === "redundant" && !registration.active) {
        failed();
      }
    });
  }

  var controlled = Boolean(navigator.serviceWorker.controller);
  navigator.serviceWorker.addEventListener("controllerchange", function () {
    replaced = controlled;
    controlled = true;
  });
  var scope = { scope: root.href, updateViaCache: "none" };
  navigator.serviceWorker.register(new URL("worker.js", root).href, scope).then(function (registration) {
    registration.addEventListener("updatefound", function () {
      watch(registration, registration.installing);
    });
    if (registration.installing) {
      watch(registration, registration.installing);
    }
    if (registration.waiting) {
      watch(registration, registration.waiting);
      takeOver(registration.waiting);
    }
    if (registration.active) {
      look(registration);
    }
  }).catch(function () { /* Not every browser and address allows it; the site works without. */ });
})();
