// Keeps the whole site on the device at the first visit, and answers from there: it works with the
// network off, and asks nobody for anything after.

declare const self: ServiceWorkerGlobalScope;
// Laid in by the build: all files of the site, and a hash of what is in them.
declare const SITE_FILES: string[];
declare const SITE_VERSION: string;

const name = `starter-plan-${SITE_VERSION}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(name).then((cache) => cache.addAll(SITE_FILES.map((file) => new Request(file, { cache: "reload" })))));
});

self.addEventListener("activate", (event) => {
  const old = async (): Promise<void> => {
    for (const other of await caches.keys())
      if (other.startsWith("starter-plan-") && other !== name) await caches.delete(other);
    await self.clients.claim();
  };
  event.waitUntil(old());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  const answer = async (): Promise<Response> => {
    const cache = await caches.open(name);
    return (await cache.match(event.request, { ignoreSearch: true })) ?? fetch(event.request);
  };
  event.respondWith(answer());
});

export {};
