// Holds every file of one build. A new build waits until the page asks for it, so that no edit is interrupted.
const VERSION = '__VERSION__'
/** SHA-256 of every file, by its name. */
const SUMS = ['__FILES__']
const FILES = Object.keys(SUMS)
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
  // Not before the page has what it asked for.
  if (request.mode === 'navigate') event.waitUntil(Promise.resolve().then(() => healing))
})

const MATCH = { ignoreVary: true, ignoreSearch: true }

/**
 * Looks at every file that is held, once a start of this worker, and fetches anew what is gone or damaged: a page
 * that came up blank is whole again at the next visit with a network.
 */
async function heal() {
  const cache = await caches.open(CACHE)
  for (const file of FILES) {
    const held = await cache.match(addressOf(file), MATCH)
    if (held && (await isWhole(held, file))) continue
    const fresh = await fetch(new Request(addressOf(file), { cache: 'reload' })).catch(() => null)
    // What does not fit belongs to another build, and would not fit the files that are whole.
    if (fresh?.ok && (await isWhole(fresh.clone(), file))) await cache.put(addressOf(file), fresh)
  }
}

async function isWhole(response, file) {
  const sum = await crypto.subtle.digest('SHA-256', await response.arrayBuffer())
  const text = [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return text === SUMS[file]
}

let healing

async function page(request) {
  healing ??= heal()
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
