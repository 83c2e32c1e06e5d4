/**
 * A body in the air, SI. Hackle, hair and yarn catch less air the faster they fly: the drag area stated is that at
 * 6 m/s, about what flies meet in a cast.
 */
export interface Body {
  readonly mass_kg: number
  /** Drag coefficient times frontal area at 6 m/s, m2. */
  readonly dragArea_m2: number
  /** How the drag area falls with speed, as its power: 0 (or left out) for solid bodies. */
  readonly dragExponent?: number
}

const STATED_AT_M_S = 6
/** Below it the law is not meant, and the area stays as it is. */
const SLOWEST_M_S = 0.5

/**
 * Drag area over the one stated: (v/6 m/s)^-p, v not under 0.5 m/s. Barbs as cylinders by N.-S. Cheng, J. Hydraul.
 * Eng. 139, 2013, give p = .31 to .42 for .05 to .10 mm; a plumed seed's terminal speed gives .39.
 */
export function dragShare(speed_m_s: number, exponent = 0): number {
  return (Math.max(speed_m_s, SLOWEST_M_S) / STATED_AT_M_S) ** -exponent
}

/** Drag area (m2) of a body at a speed. */
export function dragAreaAt({ dragArea_m2, dragExponent }: Body, speed_m_s: number): number {
  return dragArea_m2 * dragShare(speed_m_s, dragExponent)
}

/**
 * Speed (m/s) at which a body falls through still air: m g = rho/2 A(v) v^2, solved for v. null for one without a
 * drag area, which falls faster for ever.
 */
export function fallSpeed_m_s(
  { mass_kg, dragArea_m2, dragExponent = 0 }: Body,
  density_kg_m3: number,
  gravity_m_s2: number,
): number | null {
  if (!(dragArea_m2 > 0 && density_kg_m3 > 0)) return null
  const square = (2 * mass_kg * gravity_m_s2) / (density_kg_m3 * dragArea_m2)
  const speed = (square * STATED_AT_M_S ** -dragExponent) ** (1 / (2 - dragExponent))
  return speed >= SLOWEST_M_S ? speed : Math.sqrt(square / dragShare(SLOWEST_M_S, dragExponent))
}
