export { openStorage } from './storage'
export type { NewFormula, Storage } from './storage'
export type { StoredFormula, StoredItem } from './database'
export { StorageError } from './error'
