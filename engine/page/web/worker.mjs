// Keeps the pages of a book for when there is no network. The publisher puts in front of this the names of
// its files and a version that changes with any of them: const files = […]; const version = "…";

// Another book of the same host has a shelf of its own.
const shelves = `jarful ${registration.scope} `;
const shelf = shelves + version;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(shelf).then((cache) => cache.addAll(files)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const drop = async () => {
    for (const name of await caches.keys()) if (name.startsWith(shelves) && name !== shelf) await caches.delete(name);
    await self.clients.claim();
  };
  event.waitUntil(drop());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== location.origin) return;
  // A host's first page has two addresses.
  const address = event.request.url.split("#")[0].replace(/\/index\.html$/, "/");
  const kept = async () => (await (await caches.open(shelf)).match(address, { ignoreSearch: true })) ?? fetch(event.request);
  event.respondWith(kept());
});
