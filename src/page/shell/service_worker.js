// Keeps one whole set of files and answers from it. A new set is fetched in full before it waits its turn, and takes over
// only when the page says so.

/* global BUILD, FILES: put in by the build. */

self.addEventListener("install", (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(BUILD).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const tidy = async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name !== BUILD).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(self.skipWaiting());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== location.origin) return;
  const answer = async () => {
    const cache = await caches.open(BUILD);
    const kept = event.request.mode === "navigate" && /\/(index\.html)?$/.test(new URL(event.request.url).pathname)
      ? await cache.match("./")
      : await cache.match(event.request);
    return kept ?? fetch(event.request);
  };
  event.respondWith(answer());
});
