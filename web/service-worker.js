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
  event.waitUntil(tidied().then(() => self.clients.claim()));
});

/** Old versions go, unless another tab may still need one: a round may be under way in it. */
async function tidied() {
  const open = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  if (open.length > 1) return;
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith("page-") && name !== CACHE).map((name) => caches.delete(name)),
  );
}

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (url.origin !== self.location.origin) return;
  if (url.pathname.endsWith("/diary/have")) return event.respondWith(neighbours(event.request));
  if (event.request.method !== "GET") return;
  event.respondWith(kept(event.request).then((found) => found ?? fetch(event.request)));
});

/** From this version, else from an older one, whose files have names of their own. */
async function kept(request) {
  const how = { ignoreSearch: true };
  const cache = await caches.open(CACHE);
  return (await cache.match(request, how)) ?? caches.match(request, how);
}

/** What the server's diary holds; nothing where it keeps none or is away, which is no trouble of the page. */
async function neighbours(request) {
  try {
    const answer = await fetch(request);
    return answer.status === 404 ? new Response(null, { status: 204 }) : answer;
  } catch {
    return new Response(null, { status: 204, headers: { "x-away": "1" } });
  }
}
