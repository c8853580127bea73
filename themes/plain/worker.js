/* Keeps the whole book on a device that opened one page of it over the web. Another edition of
   the book has another name here, is fetched whole, and only then takes the place of the old. */
"use strict";
const SCOPE = self.registration.scope;
const OURS = "book " + SCOPE + " ";
const EDITION = OURS + {{ edition | tojson }};
const FILES = {{ files | tojson(indent=1) }};
const MISSING = {{ missing | tojson }};

// one way to write an address, for browsers and pages escape more or less of it
function spelt(name) {
  return SCOPE + name.split("/").map(encodeURIComponent).join("/");
}

function respelt(address) {
  const name = address.split(/[?#]/)[0].slice(SCOPE.length);
  try { return spelt(decodeURIComponent(name)); } catch (problem) { return SCOPE + name; }
}

async function keep(cache, address) {
  const answer = await fetch(address, { cache: "reload" });
  if (!answer.ok) { throw new Error(answer.status + " " + address); }
  // a page may not be shown by an answer that was sent on from elsewhere, only by a copy of it
  const kept = answer.redirected
    ? new Response(await answer.blob(), { headers: answer.headers })
    : answer;
  await cache.put(address, kept);
}

async function keepAll() {
  const cache = await caches.open(EDITION);
  await Promise.all(FILES.map((name) => keep(cache, spelt(name))));
  await self.skipWaiting();
}

async function dropOthers() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && name !== EDITION);
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function kept(request) {
  const asked = respelt(request.url);
  const page = asked.endsWith("/") ? asked + "index.html" : asked;
  const cache = await caches.open(EDITION);
  const how = { ignoreVary: true };
  return (await cache.match(page, how)) || (await cache.match(page + ".html", how))
    || fetch(request).catch((problem) => missing(request, problem));
}

// what is offered to take along is not kept: without a signal a page says so
function missing(request, problem) {
  if (request.mode !== "navigate") { throw problem; }
  const page = MISSING.replace('href="index.html"', 'href="' + spelt("index.html") + '"');
  return new Response(page, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

self.addEventListener("install", (event) => { event.waitUntil(keepAll()); });
self.addEventListener("activate", (event) => { event.waitUntil(dropOthers()); });
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(SCOPE)) {
    event.respondWith(kept(event.request));
  }
});
