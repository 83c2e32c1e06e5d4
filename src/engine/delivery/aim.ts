import type { CastCase } from '../cast'

const DEGREE = Math.PI / 180

/** How high above the water a cast is aimed, at the end of line and leader, m; negative: at the water before it. */
export function aimHeight_m({ line, segments, cast }: CastCase, launchAngle_deg: number): number {
  const reach_m = [...line, ...segments].reduce((sum, { length_m }) => sum + length_m, 0)
  return cast.tipHeight_m + reach_m * Math.tan(launchAngle_deg * DEGREE)
}
