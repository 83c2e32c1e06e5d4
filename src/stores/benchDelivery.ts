import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Remedy } from '../engine/checks'
import type { Ranking } from '../engine/cast'
import { rankAgainst } from '../engine/cast'
import { deliveryOf, goesOver } from '../engine/delivery'
import { useBench } from './bench'
import { useDelivery, useWhatHelps } from './deliveries'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { FIRST_SHIPPED } from './shipped'

/** A leader that its owner knows how to cast, and how the one on the bench compares. */
export interface Yardstick {
  readonly name: string
  readonly rank: Ranking
}

/** How the leader on the bench is delivered, what it is compared with, and what would mend it where it fails. */
export const useBenchDelivery = defineStore('benchDelivery', () => {
  const [bench, library, settings] = [useBench(), useLibrary(), useSettings()]
  const judgement = useDelivery(() => bench.leader, 'bench')
  const delivery = computed(() => deliveryOf(judgement.value))

  const yardstickId = computed(() => settings.yardstick ?? FIRST_SHIPPED.id)
  const yardLeader = computed(() =>
    bench.id === yardstickId.value ? undefined : library.leaderOf(yardstickId.value),
  )
  const yardJudgement = useDelivery(() => yardLeader.value, 'cast')
  const yardstick = computed<Yardstick | undefined>(() => {
    const [here, there] = [delivery.value, deliveryOf(yardJudgement.value)]
    if (!here || !there || !yardLeader.value) return undefined
    const [a, b] = [here, there].map(({ least }) => least?.lineSpeed_m_s ?? null)
    const rank = rankAgainst(a!, b!)
    return rank ? { name: yardLeader.value.name, rank } : undefined
  })

  const isFailing = computed(() => delivery.value && !goesOver(delivery.value.state))
  const helping = useWhatHelps(
    () => (isFailing.value ? bench.leader : undefined),
    () => settings.limits,
    () => 'more-casts',
    // What only helps a little is no remedy.
    ({ delivery: after }) => goesOver(after.state),
  )
  const remedies = computed<readonly Remedy[]>(() =>
    helping.value.helps.map(({ remedy }) => remedy),
  )

  return {
    judgement: computed(() => judgement.value ?? ({ kind: 'checking' } as const)),
    flown: computed(() => delivery.value && { delivery: delivery.value, remedies: remedies.value }),
    yardstick,
  }
})
