// Keeps the job card and its files on this device, so that a reload in the garage needs no network.
const STORE = "twomarks-card-1";
const mine = (url) => /^\/workdays\/card\/[0-9a-f-]{36}\/$/.test(url.pathname) || url.pathname.startsWith("/static/");

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name.startsWith("twomarks-card-") && name !== STORE) await caches.delete(name);
      await self.clients.claim();
    })(),
  ),
);
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || !mine(url)) return;
  event.respondWith(
    (async () => {
      const store = await caches.open(STORE);
      try {
        const response = await fetch(event.request);
        if (response.ok) await store.put(event.request, response.clone());
        return response;
      } catch (error) {
        const found = await store.match(event.request, { ignoreVary: true });
        if (found) return found;
        throw error;
      }
    })(),
  );
});
self.addEventListener("message", (event) => {
  if (!event.data?.keep) return;
  event.waitUntil(
    (async () => {
      const store = await caches.open(STORE);
      await store.addAll(event.data.keep);
      event.source?.postMessage({ kept: event.data.keep.length });
    })(),
  );
});
