import type { CastCase, CastSettings } from '../cast'

/** How one cast misses what was tried, in standard deviations: speed, aim, loop, tip. */
export interface Miss {
  readonly speed: number
  readonly aim: number
  readonly loop: number
  readonly tip: number
}

/**
 * So many misses, spread evenly over the normal distribution: the sequence of J. H. Halton, Numerische Mathematik 2,
 * 1960, in pairs by G. E. P. Box and M. E. Muller, Ann. Math. Stat. 29, 1958. Always the same ones, so that two
 * leaders meet the same misses.
 * @param from how many of the sequence to leave out, for draws of their own.
 */
export function missesOf(count: number, from = 0): Miss[] {
  return Array.from({ length: count }, (_, i) => {
    // The first few of the sequence lie along a diagonal.
    const at = i + from + SKIPPED
    const [speed, aim] = normals(halton(at, 2), halton(at, 3))
    const [loop, tip] = normals(halton(at, 5), halton(at, 7))
    return { speed, aim, loop, tip }
  })
}

const SKIPPED = 20

function halton(index: number, base: number): number {
  let [value, share] = [0, 1 / base]
  for (let i = index; i > 0; i = Math.floor(i / base)) {
    value += share * (i % base)
    share /= base
  }
  return value
}

function normals(a: number, b: number): [number, number] {
  const radius = Math.sqrt(-2 * Math.log(1 - a))
  return [radius * Math.cos(2 * Math.PI * b), radius * Math.sin(2 * Math.PI * b)]
}

/** What a caster tries for. */
export interface Aimed {
  readonly lineSpeed_m_s: number
  readonly launchAngle_deg: number
}

/** Speed and aim as they come out. */
export function missed({ spreads }: CastCase, to: Aimed, { speed, aim }: Miss): Aimed {
  return {
    lineSpeed_m_s: to.lineSpeed_m_s * Math.exp(spreads.lineSpeed.sd * speed),
    launchAngle_deg: to.launchAngle_deg + spreads.launchAngle_deg.sd * aim,
  }
}

/** The whole cast as it comes out, loop and height of the tip with it. */
export function thrown(input: CastCase, to: Aimed, miss: Miss): CastSettings {
  const { spreads, cast } = input
  return {
    ...cast,
    ...missed(input, to, miss),
    loopHeight_m: cast.loopHeight_m * Math.exp(spreads.loopHeight.sd * miss.loop),
    tipHeight_m: Math.max(0.3, cast.tipHeight_m + spreads.tipHeight_m.sd * miss.tip),
  }
}
