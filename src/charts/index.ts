export * from './profileSeries'
export * from './picture'
