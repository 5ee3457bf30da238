/* Keeps the site on this device, whole. The builder puts BOOK above: the version of the set and
   the sum of its list. A set is filled into a cache of its own; only when every file has arrived
   and has the sum that the list names is the cache noted as complete, and only then does this
   worker take over and let the older cache go. */
"use strict";
const SCOPE = self.registration.scope;
const PREFIX = "loombook|" + SCOPE + "|";
const OWN = PREFIX + BOOK.version;
const NOTE = SCOPE + "loombook-note"; // no page of the site: what is known of a complete cache
const AT_ONCE = 6, BATCH = 40;

/* ---- files and their sums ---- */
async function sumOf(bytes, letters) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(sum, (byte) => byte.toString(16).padStart(2, "0")).join("").slice(0, letters);
}

/* The answer without what belonged to its way here: compression, a redirect. */
function plain(answer, bytes) {
  const headers = new Headers(answer.headers);
  ["content-encoding", "content-length", "transfer-encoding"].forEach((name) => headers.delete(name));
  return new Response(bytes, { status: 200, headers: headers });
}

async function fetchWhole(url, wanted) {
  const answer = await fetch(SCOPE + url, { cache: "no-store", credentials: "same-origin" });
  if (!answer.ok) throw new Error(url + ": " + answer.status);
  const bytes = await answer.arrayBuffer();
  if ((await sumOf(bytes, wanted.length)) !== wanted) throw new Error(url + " is of another build");
  return plain(answer, bytes);
}

let list = null;
async function ownList() {
  if (!list) {
    const saved = await caches.match(SCOPE + BOOK.list, { cacheName: OWN });
    list = await (saved || (await fetchWhole(BOOK.list, BOOK.list_sum))).json();
  }
  return list;
}

/* ---- caches ---- */
async function noteOf(name) {
  const note = (await caches.has(name)) && (await caches.match(NOTE, { cacheName: name }));
  return note ? note.json() : null;
}

/* The newest complete cache of another version of this very site, or null. */
async function savedBefore() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== OWN);
  for (const name of names.reverse()) {
    const note = await noteOf(name);
    const before = note && (await caches.match(SCOPE + note.list, { cacheName: name }));
    if (before) return { name: name, note: note, sums: await before.json() };
  }
  return null;
}

async function urlsIn(name) {
  const requests = await (await caches.open(name)).keys();
  return requests.map((request) => request.url.slice(SCOPE.length));
}

/* What this set must hold: by rule, and what the set before held because a person wanted it. */
async function wantedUrls(sums, before) {
  const cars = Object.keys(sums.cars), shared = Object.keys(sums.shared);
  if (BOOK.whole_at_once || (before && before.note.whole)) return shared.concat(cars);
  const opened = before ? await urlsIn(before.name) : [];
  return shared.concat(opened.filter((url) => url in sums.cars));
}

async function copyOrFetch(cache, url, wanted, before) {
  const unchanged = before && (before.sums.shared[url] || before.sums.cars[url]) === wanted;
  const copy = unchanged && (await caches.match(SCOPE + url, { cacheName: before.name }));
  await cache.put(SCOPE + url, copy || (await fetchWhole(url, wanted)));
}

async function putAll(cache, urls, sums, before) {
  const left = urls.slice();
  async function work() {
    for (let url = left.shift(); url !== undefined; url = left.shift()) {
      await copyOrFetch(cache, url, sums.shared[url] || sums.cars[url], before);
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

/* All of it or nothing: a cache that misses one file is deleted again. */
async function fill() {
  if (await noteOf(OWN)) return;
  try {
    const sums = await ownList(), before = await savedBefore();
    const urls = await wantedUrls(sums, before), cache = await caches.open(OWN);
    await putAll(cache, urls, sums, before);
    await cache.put(SCOPE + BOOK.list, new Response(JSON.stringify(sums)));
    await noteDown(BOOK.whole_at_once || Boolean(before && before.note.whole), urls.length);
  } catch (failure) {
    await caches.delete(OWN);
    throw failure;
  }
}

async function noteDown(whole, files) {
  const note = { list: BOOK.list, whole: whole, files: files };
  await (await caches.open(OWN)).put(NOTE, new Response(JSON.stringify(note)));
}

async function dropOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((n) => n.startsWith(PREFIX) && n !== OWN).map((n) => caches.delete(n)));
}

/* ---- pages ---- */
function keyOf(address) {
  const url = decodeURI(address.slice(SCOPE.length).replace(/[?#].*$/, ""));
  return url === "" || url.endsWith("/") ? url + "index.html" : url;
}

async function saved(key) {
  const exact = await caches.match(SCOPE + key, { cacheName: OWN });
  return exact || caches.match(SCOPE + key + ".html", { cacheName: OWN });
}

async function answer(event) {
  const key = keyOf(event.request.url);
  const kept = await saved(key);
  if (kept) return kept;
  try {
    const fresh = await fetch(event.request);
    if (fresh.ok && (event.request.mode === "navigate" || event.request.destination === "image")) event.waitUntil(keepOpened(key, fresh.clone()));
    return fresh;
  } catch (failure) {
    if (event.request.mode !== "navigate") return Response.error();
    return Response.redirect(SCOPE + BOOK.not_saved);
  }
}

/* A page or a photo of a car that somebody opened is kept, if it is of this build. */
async function keepOpened(key, fresh) {
  const note = await noteOf(OWN), wanted = note && (await ownList()).cars[key];
  if (!wanted) return;
  const bytes = await fresh.arrayBuffer();
  if ((await sumOf(bytes, wanted.length)) !== wanted) return;
  const cache = await caches.open(OWN);
  await cache.put(SCOPE + key, plain(fresh, bytes));
  const opened = (await urlsIn(OWN)).filter((url) => url in list.cars);
  if (!note.whole && opened.length > BOOK.most_opened) await cache.delete(SCOPE + opened[0]);
}

/* ---- what pages ask ---- */
async function state() {
  const note = await noteOf(OWN), urls = note ? await urlsIn(OWN) : [];
  const cars = note ? (await ownList()).cars : {};
  return {
    saved: Boolean(note) && urls.length >= note.files + 2, // the list and the note are in it too
    whole: Boolean(note && note.whole),
    data_of: BOOK.data_of,
    size: BOOK.whole,
    cars: BOOK.cars,
    kept: urls.filter((url) => url in cars).length
  };
}

/* The next few of the pages that are still missing; the page asks again until none is left. */
async function more() {
  const sums = await ownList(), there = new Set(await urlsIn(OWN));
  const missing = Object.keys(sums.cars).filter((url) => !there.has(url));
  await putAll(await caches.open(OWN), missing.slice(0, BATCH), sums, null);
  const left = Math.max(0, missing.length - BATCH);
  if (!left) await noteDown(true, Object.keys(sums.shared).length + BOOK.cars);
  return { left: left, of: BOOK.cars };
}

const ANSWERS = {
  state: state,
  more: more,
  again: () => fill().then(state),
  "take over": () => self.skipWaiting().then(() => ({}))
};

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(dropOthers().then(() => self.clients.claim())));
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(SCOPE)) event.respondWith(answer(event));
});
self.addEventListener("message", (event) => {
  const act = ANSWERS[event.data], port = event.ports[0];
  if (!act || !port) return;
  event.waitUntil(act().then(
    (said) => port.postMessage(said),
    (failure) => port.postMessage({ failed: String(failure.message || failure) })
  ));
});
