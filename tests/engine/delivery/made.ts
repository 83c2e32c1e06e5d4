/** Deliveries made up for what reads them: never a check of the casts themselves. */
import type { BestDelivery, Delivery, DeliveryState, Judgement } from '../../../src/engine/delivery'
import { LAID } from '../../../src/engine/delivery'

const BEST: BestDelivery = {
  lineSpeed_m_s: 9,
  launchAngle_deg: 0,
  aimHeight_m: 2,
  room: 0.7,
  roomRecoilForgiven: 0.85,
  lay: 0.9,
  reachShare: 0.95,
  straight: 0.98,
  touchSpeedRatio: 0.8,
  touch: 'soft',
  touchOrder: ['line', 'leader', 'fly'],
  pieceLays: [],
  edge: null,
}

export function madeDelivery(
  patch: Partial<Omit<Delivery, 'best'>> & { readonly best?: Partial<BestDelivery> } = {},
): Delivery {
  return {
    state: 'easily',
    least: { lineSpeed_m_s: 7, launchAngle_deg: 2 },
    usual_m_s: 12,
    greatest_m_s: 16,
    wanted: LAID,
    fall_m_s: 2,
    flights: 100,
    lines: [],
    ...patch,
    best: { ...BEST, ...patch.best },
  }
}

export const madeJudgement = (patch?: Parameters<typeof madeDelivery>[0]): Judgement => ({
  kind: 'delivered',
  delivery: madeDelivery(patch),
})

/** A leader that comes over so often, and from so much speed on. */
export function judgedAs(
  state: DeliveryState,
  room: number,
  least_m_s: number | null = 6,
): Judgement & { readonly delivery: Delivery } {
  const least = least_m_s === null ? null : { lineSpeed_m_s: least_m_s, launchAngle_deg: 2 }
  const delivery = madeDelivery({ state, least, best: { room, roomRecoilForgiven: room } })
  return { kind: 'delivered', delivery }
}
