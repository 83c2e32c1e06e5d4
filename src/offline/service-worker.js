// Holds every file of one build. A new build waits until the page asks for it, so that no edit is interrupted.
const VERSION = '__VERSION__'
const FILES = ['__FILES__']
const PREFIX = 'taperwright-'
const CACHE = PREFIX + VERSION
const PAGE = 'index.html'

const addressOf = (file) => new URL(file, self.registration.scope).href

self.addEventListener('install', (event) => event.waitUntil(hold()))

async function hold() {
  const cache = await caches.open(CACHE)
  // Past the browser's own cache, which may still have files of the build before.
  await cache.addAll(FILES.map((file) => new Request(addressOf(file), { cache: 'reload' })))
}

self.addEventListener('activate', (event) => event.waitUntil(takeOver()))

/** The build before stays for tabs that are still on it and may want a part they have not yet fetched. */
async function takeOver() {
  const held = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE)
  await Promise.all(held.slice(0, -1).map((name) => caches.delete(name)))
  await self.clients.claim()
}

self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting()
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const isOurs = new URL(request.url).origin === self.location.origin
  if (request.method !== 'GET' || !isOurs) return
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request))
})

const MATCH = { ignoreVary: true, ignoreSearch: true }

async function page(request) {
  const { pathname } = new URL(request.url)
  const scope = new URL(self.registration.scope).pathname
  const isApp = pathname === scope || pathname === scope + PAGE
  const cache = await caches.open(CACHE)
  const held = isApp && (await cache.match(addressOf(PAGE), MATCH))
  return held || fetch(request)
}

async function file(request) {
  const cache = await caches.open(CACHE)
  return (
    (await cache.match(request, MATCH)) || (await caches.match(request, MATCH)) || fetch(request)
  )
}
