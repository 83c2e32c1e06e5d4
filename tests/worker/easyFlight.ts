import type { fly } from '../../src/engine/delivery'

/** A fly of more drag area than this never comes over, m2. */
const TOO_BULKY_M2 = 2e-4

/**
 * Casts by a law that tests can reckon with: one comes over from a line speed on that grows with the drag area of the fly
 * and with the mean thickness of the leader, at any aim. Made up: no check of a cast.
 */
export const easyFlight: typeof fly = ({ fly: body, segments }, { cast }) => {
  const thickness_m = segments.reduce((sum, s) => sum + s.diameterFrom_m, 0) / segments.length
  const need_m_s =
    body.dragArea_m2 > TOO_BULKY_M2 ? 90 : 5 + body.dragArea_m2 * 4e4 + thickness_m * 3e3
  const isOver = cast.lineSpeed_m_s >= need_m_s
  return {
    status: 'ok',
    lay: isOver ? 0.95 : -0.4,
    reachShare: isOver ? 0.97 : 0.4,
    touchSpeedDown_m_s: 1,
    touchSpeedRatio: 0.8,
    touchOrder: ['line', 'leader', 'fly'],
    pieceLays: segments.map(() => (isOver ? 0.95 : -0.4)),
    straight: isOver ? 0.98 : 0,
  }
}
