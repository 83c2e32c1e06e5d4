export * from './explorers'
export * from './measures'
export * from './claims'
