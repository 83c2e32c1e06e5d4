export * from './strength'
