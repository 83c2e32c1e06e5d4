export * from './types'
export * from './read'
export * from './edits'
export * from './edit'
