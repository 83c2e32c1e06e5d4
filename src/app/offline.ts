import { shallowRef } from 'vue'
import { useLibrary } from '../stores/library'
import { useBench } from '../stores/bench'
import { askToKeep, roomLeft } from '../stores/persistence'

/** Called with nothing, puts the new version in place; undefined while there is none. */
export const update = shallowRef<() => void>()

/** Lets the page work without a network. A new version is offered when it is there, and never forced. */
export async function startOffline(): Promise<void> {
  if (useLibrary().entries.some(({ shipped }) => !shipped)) void askToKeep()
  const room = await roomLeft()
  if (room.isNearlyFull) useBench().notice = room.words
  if (!('serviceWorker' in navigator) || !window.isSecureContext) return
  try {
    const registration = await navigator.serviceWorker.register('./sw.js')
    offer(registration)
    registration.addEventListener('updatefound', () => {
      registration.installing?.addEventListener('statechange', () => offer(registration))
    })
    // Left open for days, a tab would not hear of a new version otherwise.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') registration.update().catch(() => undefined)
    })
  } catch {
    // Without it the page works as long as there is a network, which is what it says by itself.
  }
}

/** The very first version takes over by itself: there is nothing that it would replace. */
function offer({ waiting }: ServiceWorkerRegistration): void {
  if (!waiting || !navigator.serviceWorker.controller) return
  update.value = () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => window.location.reload(), {
      once: true,
    })
    waiting.postMessage('take-over')
  }
}
