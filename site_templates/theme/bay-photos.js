/* Photos taken in the bay: made small and bare of metadata, kept in the browser's database until they
   leave in a .zip. A phone that has no database keeps them for this visit. No page. */
window.loombookPhotos = (function () {
  "use strict";
  var LONGEST = 1600, MOST_BYTES = 400000, NAME = "loombook-bay", STORE = "photos";
  var here = {}; // what no database keeps

  function opened() {
    return new Promise(function (resolve, reject) {
      var asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = function () { asked.result.createObjectStore(STORE); };
      asked.onsuccess = function () { resolve(asked.result); };
      asked.onerror = function () { reject(asked.error); };
    });
  }

  /* One piece of work on the store; what its last request came to. */
  function working(mode, work) {
    return opened().then(function (base) {
      return new Promise(function (resolve, reject) {
        var done = base.transaction(STORE, mode), asked = work(done.objectStore(STORE));
        done.oncomplete = function () { base.close(); resolve(asked && asked.result); };
        done.onabort = done.onerror = function () { base.close(); reject(done.error); };
      });
    });
  }

  function put(key, blob) {
    here[key] = blob;
    return working("readwrite", function (store) { return store.put(blob, key); }).catch(function () {
      return "visit"; // it stands in `here`
    });
  }

  function get(key) {
    return here[key] ? Promise.resolve(here[key]) : working("readonly", function (store) { return store.get(key); });
  }

  function drop(key) {
    delete here[key];
    return working("readwrite", function (store) { return store.delete(key); }).catch(function () { return null; });
  }

  /* Drawn anew, which leaves out place, time and device, at most `LONGEST` on its longer side. */
  function small(file) {
    return createImageBitmap(file).then(function (picture) {
      var share = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
      var canvas = document.createElement("canvas");
      canvas.width = Math.round(picture.width * share);
      canvas.height = Math.round(picture.height * share);
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      return within(canvas, 0.82);
    });
  }

  function within(canvas, quality) {
    return new Promise(function (resolve) { canvas.toBlob(resolve, "image/jpeg", quality); }).then(function (blob) {
      return blob.size > MOST_BYTES && quality > 0.3 ? within(canvas, quality - 0.2) : blob;
    });
  }

  /* -- a .zip without compression: photos are small already ----------------------------------------- */

  var TABLE = Array.from({ length: 256 }, function (_, at) {
    for (var bit = 0; bit < 8; bit += 1) {
      at = at & 1 ? at >>> 1 ^ 0xEDB88320 : at >>> 1;
    }
    return at >>> 0;
  });

  function crc(bytes) {
    var sum = bytes.reduce(function (found, byte) {
      return found >>> 8 ^ TABLE[(found ^ byte) & 255];
    }, 0xFFFFFFFF);
    return (sum ^ 0xFFFFFFFF) >>> 0;
  }

  /* Numbers of two or four bytes, the least first: [[value, bytes]]. */
  function packed(numbers) {
    return Uint8Array.from(numbers.flatMap(function (pair) {
      return Array.from({ length: pair[1] }, function (_, at) { return pair[0] >>> 8 * at & 255; });
    }));
  }

  var UTF8 = 0x800, MIDNIGHT = 33; // names are UTF-8; no moment is told: 1 January 1980

  function member(file, at) {
    var name = new TextEncoder().encode(file.name), size = file.bytes.length;
    var same = [[20, 2], [UTF8, 2], [0, 2], [0, 2], [MIDNIGHT, 2], [crc(file.bytes), 4], [size, 4], [size, 4], [name.length, 2], [0, 2]];
    return {
      local: [packed([[0x04034B50, 4]].concat(same)), name, file.bytes],
      central: [packed([[0x02014B50, 4], [20, 2]].concat(same, [[0, 2], [0, 2], [0, 2], [0, 4], [at, 4]])), name]
    };
  }

  function length(parts) {
    return parts.reduce(function (sum, part) { return sum + part.length; }, 0);
  }

  /* A .zip of [{name, bytes}] as a Blob. Source: PKWARE APPNOTE 6.3, sections 4.3.7 to 4.3.16 (memory). */
  function zip(files) {
    var local = [], central = [];
    files.forEach(function (file) {
      var made = member(file, length(local));
      local = local.concat(made.local);
      central = central.concat(made.central);
    });
    var end = packed([[0x06054B50, 4], [0, 2], [0, 2], [files.length, 2], [files.length, 2],
      [length(central), 4], [length(local), 4], [0, 2]]);
    return new Blob(local.concat(central, end), { type: "application/zip" });
  }

  return { put: put, get: get, drop: drop, small: small, zip: zip };
})();
