// Keeps the site's own files, so that after the first visit nothing is asked of the network. A newer page waits
// until the older one is closed, whose parts it would not fit. STATE and FILES are written before this by assemble.mjs.
/* global STATE, FILES */
const own = `panewright ${STATE}`;

self.addEventListener('install', (event) => {
  // Asked of the host anew: what the browser itself laid by may be of an older page.
  const asked = FILES.map((name) => new Request(name, { cache: 'no-cache' }));
  event.waitUntil(caches.open(own).then((cache) => cache.addAll(asked)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== own).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  event.respondWith(
    caches
      .open(own)
      .then((cache) => cache.match(event.request, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
