/** What an attack does to files: seeded, so that the same inputs come at every run. */
import * as fc from 'fast-check'

type Parent = Record<string, unknown>
type Spoil = (parent: Parent, key: string, junk: unknown) => void

/** Every object and list of a file with its keys, in order, so that a number picks a place. */
function placesOf(value: unknown): [Parent, string][] {
  if (typeof value !== 'object' || value === null) return []
  const parent = value as Parent
  return Object.keys(parent).flatMap((key) => [
    [parent, key] as [Parent, string],
    ...placesOf(parent[key]),
  ])
}

const SPOILS: Readonly<Record<string, Spoil>> = {
  delete: (parent, key) => {
    delete parent[key]
  },
  replace: (parent, key, junk) => {
    parent[key] = junk
  },
  duplicate: (parent, key) => {
    if (Array.isArray(parent)) parent.splice(Number(key), 0, structuredClone(parent[Number(key)]))
    else parent[`${key}2`] = structuredClone(parent[key])
  },
  rename: (parent, key, junk) => {
    const value = parent[key]
    delete parent[key]
    // Not by assignment: "__proto__" is a key like any other in JSON.
    Object.defineProperty(parent, typeof junk === 'string' ? junk : JSON.stringify(junk), {
      value,
      enumerable: true,
      configurable: true,
      writable: true,
    })
  },
  swap: (parent, key) => {
    const other = Object.keys(parent).at(-1) ?? key
    ;[parent[key], parent[other]] = [parent[other], parent[key]]
  },
  wrap: (parent, key) => {
    parent[key] = [parent[key]]
  },
}

function nested(depth: number): unknown {
  let value: unknown = 'deep'
  for (let i = 0; i < depth; i++) value = i % 2 ? [value] : { a: value }
  return value
}

/** Values that no field expects, or that some field takes for a figure. */
const junk = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom<unknown>(
    null,
    true,
    0,
    -1,
    1e308,
    -1e308,
    5e-324,
    '',
    '1e999 in',
    '-5 in',
    '0 in',
    '0.0000001 in',
    '99999999999999999999 m',
    '1/0 in',
    '1,000,000 mm',
    '__proto__',
    'constructor',
    'x'.repeat(30_000),
    [],
    {},
    { text: '5' },
    { text: '5', unit: 'X' },
    { text: '5 in', unit: 'in' },
    { text: '', unit: '' },
  ),
  fc.integer({ min: 1, max: 500 }).map(nested),
)

/** One thing done to one place of a file. */
export const step = fc.record({
  place: fc.nat(),
  spoil: fc.constantFrom(...Object.values(SPOILS)),
  junk,
})

interface Step {
  readonly place: number
  readonly spoil: Spoil
  readonly junk: unknown
}

/** A copy of a file with steps done to it, as JSON would give it. */
export function spoiled(sound: unknown, steps: readonly Step[]): unknown {
  const file = structuredClone(sound)
  for (const { place, spoil, junk } of steps) {
    const places = placesOf(file)
    const [parent, key] = places[place % Math.max(1, places.length)] ?? []
    if (parent && key !== undefined) spoil(parent, key, structuredClone(junk))
  }
  return JSON.parse(JSON.stringify(file)) as unknown
}
