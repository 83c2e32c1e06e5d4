/** Drag of the fly over its velocity relative to the wind, N s/m: rho/2 CdA |u|. */
export function flyDragFactor(perSpeed_kg_m: number, wx: number, wy: number): number {
  return perSpeed_kg_m * Math.sqrt(wx * wx + wy * wy)
}
