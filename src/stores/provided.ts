import type { Storage } from '../storage'

let provided: Promise<Storage> | undefined

/** The storage that was opened at the start, for stores that are fetched later. */
export function provideStorage(storage: Promise<Storage>): void {
  provided = storage
}

export const providedStorage = (): Promise<Storage> | undefined => provided
