export * from './drag'
export * from './energyModel'
export * from './turnover'
