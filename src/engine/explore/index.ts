export * from './explorers'
export * from './measures'
