// Keeps the whole page, so that it opens with the network off. A new version waits until the page says that no round is
// under way; see src/keep/update.ts.
const VERSION = "__VERSION__";
const FILES = ["__FILES__"];
const CACHE = `page-${VERSION}`;

self.addEventListener("install", (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("page-") && name !== CACHE;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  const kept = caches.open(CACHE).then((cache) => cache.match(event.request, { ignoreSearch: true }));
  event.respondWith(kept.then((found) => found ?? fetch(event.request)));
});
