// The service worker keeps the whole app under its version, so that it opens where
// there is no network. In front of this the server writes version, the app's version,
// and files, the paths of all that belongs to it.
const cacheName = 'swingwright ' + version;

// The app is taken whole or not at all: pages of one version never meet the engine of another. What the
// browser has from showing the page is only asked after, by its version.
self.addEventListener('install', event => {
  event.waitUntil(caches.open(cacheName).then(cache => cache.addAll(files.map(file => new Request(file, {cache: 'no-cache'})))));
});

self.addEventListener('activate', event => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith('swingwright ') && name !== cacheName) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

// A new version waits until the page says that nothing is half done.
self.addEventListener('message', event => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== location.origin) return;
  if (url.pathname.startsWith('/api/attachments/')) { // what a photo's name names never changes
    event.respondWith(caches.open('taken along').then(cache => cache.match(url.pathname)).then(photo => photo || fetch(event.request)));
    return;
  }
  if (url.pathname.startsWith('/api/')) return;
  event.respondWith((async () => {
    const cache = await caches.open(cacheName);
    const key = event.request.mode === 'navigate' ? '/' : url.pathname;
    return await cache.match(key) || fetch(event.request);
  })());
});
