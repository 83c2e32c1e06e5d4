// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cutList } from '../../src/engine/tying'
import { anyLeader, leaderOf, lineOf, q, withPiece } from './build'

const INCH = 0.0254

/** Three pieces joined by blood knots; the middle one is cut for two of them. */
const between = (above: number, own: number, below: number) =>
  leaderOf([
    { length: '20 in', diameter: `${above} thou`, part: 'butt' },
    { length: '10 in', diameter: `${own} thou`, part: 'mid-section', knot: 'blood' },
    { length: '20 in', diameter: `${below} thou`, part: 'tippet', knot: 'blood' },
  ])

describe('cut list', () => {
  it('cuts what is finished, what is in the knots and what is trimmed', () => {
    fc.assert(
      fc.property(anyLeader, (leader) =>
        cutList(leader).every((p, i) => {
          const sum = p.finished_m + p.inKnots_m + p.trimmed_m
          const isFinished = p.finished_m === leader.segments[i]?.length.si
          return isFinished && Math.abs(p.cut_m - sum) < 1e-12 && p.trimmed_m > 0
        }),
      ),
    )
  })

  // A tight helix of five turns, 5 pi (d1 + d2) a side, worked by hand in inches.
  it.each([
    [20, 18, 0.6],
    [15, 13, 0.44],
    [8, 7, 0.24],
  ])('a blood knot of .0%i to .0%i takes %f in from each side', (above, below, inches) => {
    const leader = leaderOf([
      { length: '20 in', diameter: `${above} thou`, part: 'butt' },
      { length: '20 in', diameter: `${below} thou`, part: 'tippet', knot: 'blood' },
    ])
    const alone = cutList(
      withPiece(leader, 1, { joint: { knot: 'blood', takeUp: [q('1 mm'), q('1 mm')] } }),
    )
    const inKnot = (cutList(leader)[1]?.inKnots_m ?? 0) - (alone[1]?.inKnots_m ?? 0) + 1e-3
    // Half of the last place of the hand computation.
    expect(inKnot / INCH).toBeCloseTo(inches, 2)
  })

  it('counts both knots of a piece', () => {
    // 5 pi (.015 + .013) + 5 pi (.013 + .011) = .817 in, by hand.
    expect((cutList(between(15, 13, 11))[1]?.inKnots_m ?? 0) / INCH).toBeCloseTo(0.817, 3)
  })

  it('adds about an inch and a half to a piece for its knots', () => {
    // The published nine and a half feet labelled 6X: one tier adds 1 1/2 in to every section. Ours also holds tags to pull on.
    const { cut_m = 0, finished_m = 0 } = cutList(between(15, 13, 11))[1] ?? {}
    expect((cut_m - finished_m) / INCH).toBeGreaterThan(1.5)
    expect((cut_m - finished_m) / INCH).toBeLessThan(6)
  })

  it('takes the turns and the take-up that the user states', () => {
    const leader = between(15, 13, 11)
    const seven = withPiece(leader, 2, { joint: { knot: 'blood', turns: [7, 5] } })
    const stated = withPiece(leader, 2, {
      joint: { knot: 'blood', takeUp: [q('3 cm'), q('1 cm')] },
    })
    const own = (l: typeof leader) => cutList(l)[1]?.inKnots_m ?? 0
    // Two turns more on the butt side: 2 pi (.013 + .011) in, by hand .1508 in.
    expect((own(seven) - own(leader)) / INCH).toBeCloseTo(0.1508, 3)
    // 5 pi (.015 + .013) in = 11.171 mm, and the 30 mm stated.
    expect(own(stated)).toBeCloseTo(0.041171, 5)
  })

  it('winds the butt round the tip of its own line', () => {
    const nailed = (tipDiameter_m: number) => ({
      ...leaderOf([{ length: '1 m', diameter: '20 thou', part: 'butt', knot: 'nail' }]),
      outfit: { line: { ...lineOf('WF5F'), tipDiameter_m } },
    })
    const grown =
      (cutList(nailed(1e-3))[0]?.inKnots_m ?? 0) - (cutList(nailed(0.8e-3))[0]?.inKnots_m ?? 0)
    // Six turns of a nail knot: 6 pi x 0.2 mm.
    expect(grown).toBeCloseTo(6 * Math.PI * 2e-4, 9)
  })
})
