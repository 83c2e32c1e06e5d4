/**
 * Drag coefficient of a long cylinder across a flow, Re < 2e5: N.-S. Cheng, Calculation of Drag
 * Coefficient for Arrays of Emergent Circular Cylinders, J. Hydraul. Eng. 139(6), 2013.
 */
export function chengCylinderDrag(re: number): number {
  return (
    11 * re ** -0.75 +
    0.9 * (1 - Math.exp(-1000 / re)) +
    1.2 * (1 - Math.exp(-((re / 4500) ** 0.7)))
  )
}

/**
 * Friction coefficient of a filament along its axis, on the surface pi d L: 0.37 Re_d^-0.61, M. Matsui,
 * Trans. Soc. Rheol. 20:465, 1976 (from memory). Later work finds up to twice as much.
 */
export function matsuiAxialFriction(re: number): number {
  return 0.37 * re ** -0.61
}

/** Air at 15 C: ISO 2533:1975. */
export const STANDARD_AIR = {
  density_kg_m3: 1.225,
  kinematicViscosity_m2_s: 1.789e-5 / 1.225,
} as const
