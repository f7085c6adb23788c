/* Keeps the whole book for use without signal, and brings it up to date when there is one.
   The list of files and their fingerprints is written in at the end of a build. */
"use strict";

const VERSION = "__VERSION__";
const FILES = __FILES__;
const FIRST = __FIRST__;
const PREFIX = "handwheel-";
const CACHE = PREFIX + VERSION;
const LEDGER = "handwheel-ledger.json";

self.addEventListener("install", (event) => {
  event.waitUntil(keep(Object.keys(FILES).slice(0, FIRST)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(self.clients.claim());
});

/* A page asks for the rest once it has loaded, so that a first visit is not slowed by it. */
self.addEventListener("message", (event) => {
  if (event.data === "keep-all") event.waitUntil(keepAll());
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === "GET" && url.origin === self.location.origin) {
    event.respondWith(answer(event.request));
  }
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch (error) {
    const older = await caches.match(request, { ignoreSearch: true });
    return older || Response.error();
  }
}

let keeping = null;

function keepAll() {
  keeping = keeping || keep(Object.keys(FILES)).then(forgetOlder).finally(() => (keeping = null));
  return keeping;
}

/** Puts the files into this version's cache: copied where an older version has the same, else fetched. */
async function keep(addresses) {
  const cache = await caches.open(CACHE);
  const older = await olderFiles();
  const have = new Set((await cache.keys()).map((request) => request.url));
  let done = 0;
  for (const address of addresses) {
    const url = new URL(address, self.registration.scope).href;
    if (!have.has(url)) {
      const copy = older[address] && older[address].hash === FILES[address] && (await older[address].cache.match(url));
      const response = copy || (await fetch(url, { cache: "no-cache" }));
      if (response.ok) await cache.put(url, response);
    }
    done += 1;
    if (done % 50 === 0 || done === addresses.length) await tell(done);
  }
  await cache.put(new URL(LEDGER, self.registration.scope).href, new Response(JSON.stringify(FILES)));
}

/** address -> fingerprint and cache, of every older version that is still here. */
async function olderFiles() {
  const found = {};
  for (const name of await caches.keys()) {
    if (!name.startsWith(PREFIX) || name === CACHE) continue;
    const cache = await caches.open(name);
    const ledger = await cache.match(new URL(LEDGER, self.registration.scope).href);
    for (const [address, hash] of Object.entries(ledger ? await ledger.json() : {})) found[address] = { hash, cache };
  }
  return found;
}

async function forgetOlder() {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
  }
}

async function tell(done) {
  const message = { kept: done, of: Object.keys(FILES).length };
  for (const client of await self.clients.matchAll({ includeUncontrolled: true })) client.postMessage(message);
}
