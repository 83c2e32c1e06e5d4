import type { Delivered, DeliveryCase } from '../engine/delivery'
import { deliverySteps } from '../engine/delivery'

/** A delivery as it is printed; the shape is documented in README.md. */
export function printed(delivered: Delivered) {
  if ('failed' in delivered) return { notChecked: delivered.failed }
  const { state, best, least } = delivered
  const { room, roomRecoilForgiven, lay, reachShare, lineSpeed_m_s, launchAngle_deg } = best
  const { touchSpeedRatio, touch, touchOrder, edge } = best
  return {
    state,
    best: {
      room,
      roomRecoilForgiven,
      lay,
      reachShare,
      lineSpeed_m_s,
      launchAngle_deg,
      touchSpeedRatio,
      touch,
      touchOrder,
      edge,
    },
    least,
  }
}

/** The whole delivery, one cast after another. */
export function deliver(asked: DeliveryCase): Delivered {
  const steps = deliverySteps(asked)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
