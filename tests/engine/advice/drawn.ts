/** Briefs at random, sound and odd. */
import fc from 'fast-check'
import type { Advice } from '../../../src/engine/advice'
import { DISTANCES, WARINESS, WATERS, WINDS } from '../../../src/engine/leader'
import { FLY_STYLES, LARGEST_HOOK, SMALLEST_HOOK } from '../../../src/engine/tackle'
import { adviceFor } from './briefs'

export const anyHook = fc.integer({ min: LARGEST_HOOK, max: SMALLEST_HOOK })
export const anyBrief = fc.record({
  style: fc.constantFrom(...FLY_STYLES.filter((style) => style !== 'yarn-tuft')),
  hook: anyHook,
  line: fc.constantFrom('WF3F', 'DT4F', 'WF5F', 'WF6F', 'WF8F', 'WF9F', 'WF6I', 'WF7S3', 'WF7F/S4'),
  fish: fc.constantFrom('0.5 lb', '1 lb', '2 lb', '3 lb', '5 lb', '8 lb', '12 lb'),
  conditions: fc.record({
    water: fc.constantFrom(...WATERS),
    wariness: fc.constantFrom(...WARINESS),
    distance: fc.constantFrom(...DISTANCES),
    wind: fc.constantFrom(...WINDS),
    snags: fc.boolean(),
    warm: fc.boolean(),
    toothy: fc.boolean(),
  }),
})
export type Drawn = typeof anyBrief extends fc.Arbitrary<infer T> ? T : never

export const adviceOn = ({ style, hook: n, ...rest }: Drawn): Advice =>
  adviceFor({ fly: { style, hook: n }, ...rest })
