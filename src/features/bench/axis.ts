/** The one distance axis that the drawing, the charts and the hairline share; CSS pixels. */
export const AXIS_LEFT = 62
export const AXIS_RIGHT = 30

/** Pixels from the left edge of the stack for a distance from the line (m). */
export function pixelAt(distance_m: number, total_m: number, width: number): number {
  return AXIS_LEFT + (distance_m / total_m) * (width - AXIS_LEFT - AXIS_RIGHT)
}

/** The distance (m) under a pixel, or null beside the axis. */
export function distanceAt(pixel: number, total_m: number, width: number): number | null {
  const share = (pixel - AXIS_LEFT) / (width - AXIS_LEFT - AXIS_RIGHT)
  return share < -0.01 || share > 1.01 ? null : Math.min(1, Math.max(0, share)) * total_m
}
