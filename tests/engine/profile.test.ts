// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jointsOf, profileOf, sampleProfile, segmentAt } from '../../src/engine/profile'
import { parseQuantity } from '../../src/engine/units'
import { POUND_RECIPES, RECIPES } from '../reference/recipes'
import { anyLeader, leaderOf, leaderOfRecipe, lineOf, size, withPiece } from './build'

describe.each(RECIPES.map((r) => [r.id, r] as const))('published recipe: %s', (_, recipe) => {
  const leader = leaderOfRecipe(recipe)
  const profile = profileOf(leader)

  it('adds up to the total by hand, and to the stated one', () => {
    // A tenth of a millimetre: the lengths are exact in inches or centimetres.
    expect(profile.total_m).toBeCloseTo(recipe.total_in * 0.0254, 4)
    if (recipe.stated_in !== undefined) {
      expect(profile.total_m).toBeCloseTo(recipe.stated_in * 0.0254, 4)
    }
  })

  it('has the smallest ratio that its diameters give by hand', () => {
    const ratios = jointsOf(leader, profile).flatMap((j) => j.diameterRatio ?? [])
    // Half of the last place of the hand computation, and a hair for ratios at its edge.
    expect(Math.abs(Math.min(...ratios) - recipe.smallestRatio)).toBeLessThan(0.0051)
  })

  it('has shares that make one whole', () => {
    const { butt, mid, tippet } = profile.shares
    expect(butt + mid + tippet).toBeCloseTo(1, 12)
  })
})

describe.each(POUND_RECIPES.map((r) => [r.id, r] as const))(
  'published in pounds: %s',
  (_, recipe) => {
    it('adds up to the total by hand', () => {
      expect(recipe.pieces.reduce((sum, [inches]) => sum + inches, 0)).toBe(recipe.total_in)
    })

    it.each(recipe.pieces.map(([, pounds]) => pounds))('asks which diameter %s is', (pounds) => {
      const reading = parseQuantity(pounds, 'diameter', 'in')
      expect(reading.status).toBe('ask')
      const estimates =
        reading.status === 'ask' && reading.choices.map((c) => c.quantity.estimatedFrom)
      expect(estimates).toEqual([pounds, pounds, pounds])
    })
  },
)

describe('a step', () => {
  const stepOf = (above: number, below: number) => {
    const leader = leaderOf([
      { length: '20 in', diameter: `${above} thou`, part: 'butt' },
      { length: '10 in', diameter: `${below} thou`, part: 'mid-section' },
    ])
    const joint = jointsOf(leader, profileOf(leader))[1]
    if (!joint) throw new Error('no joint')
    return joint
  }

  // Stiffness goes with d^4 (Machinery's Handbook, 31st ed., 2020); per cent worked by hand.
  it.each([
    [21, 19, 67],
    [15, 13, 56],
    [11, 9, 45],
    [9, 7, 37],
    [7, 5, 26],
    [20, 13, 18],
  ])('from .0%i to .0%i in keeps %i %% of the stiffness', (above, below, percent) => {
    expect(Math.round((stepOf(above, below).stiffnessRatio ?? 0) * 100)).toBe(percent)
  })

  it('keeps the square of the ratio in mass', () => {
    expect(stepOf(20, 10).massRatio).toBeCloseTo(0.25, 10)
  })

  it('has a rate: step over the distance between the middles', () => {
    // By hand: .002 in over 15 in.
    expect(stepOf(15, 13).taperRate).toBeCloseTo(0.002 / 15, 9)
  })

  it('at the line is measured against the tip of the line, and unknown without one', () => {
    const leader = leaderOf([{ length: '20 in', diameter: '20 thou', part: 'butt' }])
    const withLine = {
      ...leader,
      outfit: { line: { ...lineOf('WF5F'), tipDiameter_m: 0.03 * 0.0254 } },
    }
    expect(jointsOf(withLine, profileOf(withLine))[0]?.diameterRatio).toBeCloseTo(2 / 3, 10)
    expect(jointsOf(leader, profileOf(leader))[0]).toMatchObject({ place: 'line', step_m: null })
  })
})

describe('profile', () => {
  it('counts with the micrometer where one was used', () => {
    const leader = leaderOf([{ length: '1 m', diameter: '6 thou', part: 'tippet' }])
    const measured = withPiece(leader, 0, { measured: size('7 thou') })
    expect(profileOf(measured).segments[0]?.diameter_m).toBeCloseTo(7 * 2.54e-5, 12)
  })

  it('weighs what its pieces weigh by hand', () => {
    // 1 m of 1 mm nylon of 1140 kg/m3: 0.895354 g.
    const leader = leaderOf([{ length: '1 m', diameter: '1 mm', part: 'butt' }])
    expect(profileOf(leader).mass_kg).toBeCloseTo(0.895354e-3, 9)
  })

  it('refuses fewer than two samples', () => {
    const profile = profileOf(leaderOf([{ length: '1 m', diameter: '1 mm', part: 'butt' }]))
    expect(() => sampleProfile(profile, 1)).toThrow(/at least 2/)
  })

  it('integrates back to its mass and length at any resolution', () => {
    fc.assert(
      fc.property(anyLeader, fc.integer({ min: 2, max: 3000 }), (leader, count) => {
        const profile = profileOf(leader)
        const { distance_m, linearDensity_kg_m } = sampleProfile(profile, count)
        const h = profile.total_m / (count - 1)
        let mass = 0
        for (let k = 1; k < count; k++) {
          mass += (h * ((linearDensity_kg_m[k - 1] ?? 0) + (linearDensity_kg_m[k] ?? 0))) / 2
        }
        // A step inside a cell is put at the cell's middle: wrong by half a cell times the step at most.
        const steps = profile.segments.reduce((sum, s, i) => {
          const before = profile.segments[i - 1] ?? s
          return sum + Math.abs(s.linearDensity_kg_m - before.linearDensity_kg_m)
        }, 0)
        const isWhole = Math.abs((distance_m[count - 1] ?? 0) - profile.total_m) < 1e-12
        return isWhole && Math.abs(mass - profile.mass_kg) <= (h / 2) * steps + 1e-12
      }),
    )
  })

  it('finds the segment at any place', () => {
    fc.assert(
      fc.property(anyLeader, fc.double({ min: 0, max: 1, noNaN: true }), (leader, share) => {
        const profile = profileOf(leader)
        const x = share * profile.total_m
        const s = profile.segments[segmentAt(profile, x)]
        return s !== undefined && x >= s.start_m - 1e-9 && x <= s.start_m + s.length_m + 1e-9
      }),
    )
  })
})
