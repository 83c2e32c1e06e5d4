/** A module of its own, so that it is one file to fetch, and not among those the first screen waits for. */
export const OTHERS = import.meta.glob<unknown>(
  ['../../formulas/*.json', '!../../formulas/middle-sallow-9ft-5x.json'],
  { eager: true, import: 'default' },
)
