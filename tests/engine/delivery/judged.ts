/** Deliveries as if they had been flown: for what is done with them, never for how one comes about. */
import type { BestDelivery, Delivery, DeliveryState, Judgement } from '../../../src/engine/delivery'
import { LAID } from '../../../src/engine/delivery'

const BEST: BestDelivery = {
  lineSpeed_m_s: 8,
  launchAngle_deg: 2,
  aimHeight_m: 1,
  room: 0.7,
  roomRecoilForgiven: 0.7,
  lay: 0.9,
  reachShare: 0.95,
  touchSpeedRatio: 1,
  touch: 'soft',
  touchOrder: ['line', 'leader', 'fly'],
  pieceLays: [],
  edge: null,
}

/** A leader that comes over so often, and from so much speed on. */
export function judgedAs(
  state: DeliveryState,
  room: number,
  least_m_s: number | null = 6,
): Judgement & { readonly delivery: Delivery } {
  const least = least_m_s === null ? null : { lineSpeed_m_s: least_m_s, launchAngle_deg: 2 }
  return {
    kind: 'delivered',
    delivery: {
      state,
      best: { ...BEST, room, roomRecoilForgiven: room },
      least,
      usual_m_s: 10,
      greatest_m_s: 16,
      wanted: LAID,
      fall_m_s: 2,
      flights: 100,
      lines: [],
    },
  }
}
