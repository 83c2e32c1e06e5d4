export * from './finding'
export * from './limits'
export { CHECKS, runChecks } from './registry'
export type { CheckReport } from './registry'
