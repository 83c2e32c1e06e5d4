export * from './say'
export * from './findings'
export * from './names'
