export { openStorage } from './storage'
export type { NewFormula, Storage } from './storage'
export type { StoredFormula } from './database'
export { StorageError } from './error'
