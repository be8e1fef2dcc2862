// Opens the last seen pages of a lawn where there is no signal. Nothing else is kept, nothing is
// answered that was not asked of the server first, and a page that is gone is forgotten.
"use strict";

const PAGES = "turfplan";
const PARTS = ["/static/web.css", "/static/web.js"];
const OF_LAWN = /^\/(lawn|mine)\/[^/]+(\/(did|season|calendar))?$/;
const OF_HOUSE = /^\/house\/[^/]+(\/[0-9]+(\/(did|season))?)?$/;
const GONE = [401, 403, 404, 410];
// What a proxy says where nothing answers behind it.
const NOTHING_BEHIND = [502, 503, 504];

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(PAGES).then((pages) => pages.addAll(PARTS)));
  self.skipWaiting();
});

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const request = event.request, place = new URL(request.url);
  const shown = OF_LAWN.test(place.pathname) || OF_HOUSE.test(place.pathname);
  const page = request.mode === "navigate" && shown;
  if (request.method !== "GET" || place.origin !== self.location.origin) return;
  if (page || PARTS.includes(place.pathname)) event.respondWith(fresh(request, place));
});

async function fresh(request, place) {
  const pages = await caches.open(PAGES);
  const kept = async () => pages.match(place.pathname);
  let answer;
  try {
    answer = await fetch(request);
  } catch (error) {
    const last = await kept();
    if (last) return last;
    throw error;
  }
  if (NOTHING_BEHIND.includes(answer.status)) return (await kept()) || answer;
  // What tells of one tick is not what the page says later.
  if (answer.ok && place.search === "") await pages.put(place.pathname, answer.clone());
  if (GONE.includes(answer.status)) await pages.delete(place.pathname);
  return answer;
}
