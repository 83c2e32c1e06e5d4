import type { ItemKey } from './database'

/** What another tab of this app has changed. */
export type Change = { readonly items: readonly ItemKey[] } | { readonly settings: true }

/** Word between tabs; a browser without channels has none, and finds changes when it writes. */
export class News {
  readonly #channel =
    typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('taperwright')
  readonly #listeners = new Set<(change: Change) => void>()

  constructor() {
    this.#channel?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      if (!isChange(data)) return
      for (const listener of this.#listeners) listener(data)
    })
  }

  tell(change: Change): void {
    this.#channel?.postMessage(change)
  }

  listen(listener: (change: Change) => void): () => void {
    this.#listeners.add(listener)
    return () => {
      this.#listeners.delete(listener)
    }
  }

  close(): void {
    this.#channel?.close()
  }
}

/** A tab of another version may say what this one does not know. */
function isChange(data: unknown): data is Change {
  if (typeof data !== 'object' || data === null) return false
  return ('items' in data && Array.isArray(data.items)) || 'settings' in data
}
