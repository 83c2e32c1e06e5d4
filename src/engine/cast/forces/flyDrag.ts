import { dragShare } from '../../tackle'

/**
 * Drag of a body over its velocity relative to the wind, N s/m: rho/2 A(u) |u|; A falls as u to the exponent. A solid body's
 * exponent of 0 takes the same way: a branch first taken by a later fly would undo the compiled loop.
 */
export function bodyDragFactor(
  perSpeed_kg_m: number,
  exponent: number,
  wx: number,
  wy: number,
): number {
  const speed = Math.sqrt(wx * wx + wy * wy)
  return perSpeed_kg_m * speed * dragShare(speed, exponent)
}
