export * from './sourced'
export * from './material'
export * from './knot'
