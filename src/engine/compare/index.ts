export * from './differences'
