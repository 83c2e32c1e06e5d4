export * from './cut'
