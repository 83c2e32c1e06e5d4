export * from './profileSeries'
