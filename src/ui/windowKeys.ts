import { onBeforeUnmount, onMounted } from 'vue'

type OnKey = (event: KeyboardEvent) => void

const listening = new Set<OnKey>()

function onKey(event: KeyboardEvent) {
  for (const listener of listening) listener(event)
}
window.addEventListener('keydown', onKey)

/** Keys pressed anywhere in the page, while the component that asks stands. */
export function useWindowKeys(listener: OnKey) {
  onMounted(() => listening.add(listener))
  onBeforeUnmount(() => listening.delete(listener))
}
