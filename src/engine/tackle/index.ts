export * from './hook'
export * from './fly'
export * from './line'
export * from './caster'
