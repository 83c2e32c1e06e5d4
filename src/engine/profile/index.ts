export * from './profile'
export * from './joints'
