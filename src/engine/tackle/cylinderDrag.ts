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
