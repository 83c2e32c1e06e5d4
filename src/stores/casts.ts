import { computed, shallowRef, watch } from 'vue'
import { defineStore } from 'pinia'
import type { Band, CastCase, SimulatedTurnover } from '../engine/cast'
import type { Leader } from '../engine/leader'
import type { CastClient } from '../worker/client'
import type { Verdict } from '../worker/protocol'
import type { LiveCast } from './bench'
import { caseOf, presentationOf, STRAIGHT_EXTENSION } from '../engine/cast'
import { limitsFor, turnoverCandidates } from '../engine/checks'
import { Superseded } from '../worker/client'
import { runBand, runCures } from '../worker/spread'
import { useBench } from './bench'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { FIRST_SHIPPED } from './shipped'
import { messageOf } from '../engine/messageOf'

const TARGET = STRAIGHT_EXTENSION
const BAND_SAMPLES = 200
/** How many more samples it takes for the band to be shown anew while it grows. */
const SHOWN_EVERY = 30
/** What is shown of a cast is flown as the flight view flies it; long searches make do with a coarser mesh. */
const LIVE = { mesh: 'usual' } as const
const SEARCH_MESH = 'coarse'

const verdictOn = (input: CastCase) =>
  ({ kind: 'verdict', input, target: TARGET, searchMesh: SEARCH_MESH }) as const

/** Inputs as a text: two cases with the same text are the same case. */
export function fingerprintOf(input: CastCase | string): string {
  return typeof input === 'string' ? input : JSON.stringify(input)
}

/** Simulates the leader on the bench after every change, and what stands on it; the bench keeps the result. */
export const useCasts = defineStore('casts', () => {
  const [bench, library, settings] = [useBench(), useLibrary(), useSettings()]
  const problem = shallowRef<string>()
  const yard = shallowRef<{ readonly fingerprint: string; readonly least_m_s: number | null }>()
  let client: CastClient | undefined

  const input = computed(() => liveCase(bench.leader))
  const fingerprint = computed(() => fingerprintOf(input.value))
  const yardstickId = computed(() => settings.yardstick ?? FIRST_SHIPPED.id)
  const yardLeader = computed(() => library.leaderOf(yardstickId.value))
  const yardCase = computed(() => (yardLeader.value ? liveCase(yardLeader.value) : 'gone'))
  const yardstick = computed(() => {
    const [measured, leader] = [yard.value, yardLeader.value]
    if (!measured || !leader || bench.id === yardstickId.value) return undefined
    if (measured.fingerprint !== fingerprintOf(yardCase.value)) return undefined
    return { name: leader.name, least_m_s: measured.least_m_s }
  })

  /** Begins to follow the bench. */
  function start(pool: CastClient): void {
    client = pool
    watch([fingerprint, () => bench.id], () => void ask(), { immediate: true })
    // Its leader may arrive after its id, or be edited.
    watch(
      () => fingerprintOf(yardCase.value),
      () => void measureYardstick(),
      { immediate: true },
    )
    watch(yardstick, (now) => amend({ yardstick: now }))
    // What remedies may do follows the limits, which no flight feels.
    watch(
      () => limitsFor(bench.leader.purpose, settings.limits),
      () => void findCuresAnew(),
    )
    // An edit that no cast can feel, such as a note, keeps the run for the leader as it now is.
    watch(
      () => bench.leader,
      (leader) => {
        if (bench.live?.fingerprint === fingerprint.value) amend({ leader })
      },
    )
  }

  async function ask(): Promise<void> {
    const [asked, now] = [fingerprint.value, input.value]
    for (const lane of ['live', 'cures', 'band']) client?.cancel(lane)
    problem.value = undefined
    if (typeof now === 'string') return
    await quietly(async (pool) => {
      const verdict = await pool.run(verdictOn(now), { lane: 'live' })
      if (verdict.status !== 'ok') throw new Error(verdict.status)
      // An edit that no cast feels may have come meanwhile; one that it feels has asked anew.
      const { leader } = bench
      if (fingerprint.value !== asked) return
      bench.live = {
        leader,
        fingerprint: asked,
        turnover: turnoverOf(now, verdict),
        presentation: presentationOf(now, verdict.flySpeedAtTurn_m_s),
        yardstick: yardstick.value,
        cures: [],
      }
      await Promise.all([
        findCures(pool, asked, verdict, leader),
        findBand(pool, asked, now, verdict),
      ])
    })
  }

  /** More about the run that is kept, if it still is the one it was found for. */
  function amend(more: Partial<LiveCast>, asked = bench.live?.fingerprint): void {
    const { live } = bench
    if (live && live.fingerprint === asked) bench.live = { ...live, ...more }
  }

  async function findCuresAnew(): Promise<void> {
    const { live, leader } = bench
    client?.cancel('cures')
    if (!live || live.fingerprint !== fingerprint.value) return
    amend({ cures: [] })
    await quietly((pool) => findCures(pool, live.fingerprint, live.turnover, leader))
  }

  async function findCures(
    pool: CastClient,
    asked: string,
    verdict: Pick<Verdict, 'extension'>,
    leader: Leader,
  ): Promise<void> {
    if (verdict.extension >= TARGET) return
    const candidates = turnoverCandidates(leader, limitsFor(leader.purpose, settings.limits))
    const question = { leader, choices: LIVE, candidates }
    amend({ cures: await runCures(pool, question, 'cures') }, asked)
  }

  async function findBand(
    pool: CastClient,
    asked: string,
    now: CastCase,
    verdict: Verdict,
  ): Promise<void> {
    const from_m_s = verdict.leastSpeed_m_s ?? now.cast.lineSpeed_m_s
    const take = (band: Band) => amend({ turnover: { ...turnoverOf(now, verdict), band } }, asked)
    const question = {
      input: { ...now, mesh: SEARCH_MESH },
      target: TARGET,
      from_m_s,
      samples: BAND_SAMPLES,
    } as const
    let shown = 0
    const grown = (band: Band) => {
      if (band.samples < shown + SHOWN_EVERY) return
      shown = band.samples
      take(band)
    }
    take(await runBand(pool, question, 'band', grown))
  }

  async function measureYardstick(): Promise<void> {
    const now = yardCase.value
    client?.cancel('yardstick')
    if (typeof now === 'string') return
    const of = fingerprintOf(now)
    await quietly(async (pool) => {
      const { status, leastSpeed_m_s } = await pool.run(verdictOn(now), { lane: 'yardstick' })
      // Without a measure there is no comparison, which the verdict shows by saying nothing of it.
      if (status === 'ok') yard.value = { fingerprint: of, least_m_s: leastSpeed_m_s }
    })
  }

  /** A newer question is no failure; anything else is told, and the estimate stays. */
  async function quietly(work: (pool: CastClient) => Promise<void>): Promise<void> {
    if (!client) return
    try {
      await work(client)
    } catch (error) {
      if (error instanceof Superseded) return
      const message = messageOf(error)
      problem.value = `The cast could not be simulated (${message}); the estimate stands.`
      bench.notice = problem.value
    }
  }

  return { start, input, fingerprint, problem, yardstick }
})

/** A tight-line rig is swung, so there is no loop to simulate. */
function liveCase(leader: Leader): CastCase | string {
  return leader.purpose === 'tight-line-nymph' ? 'not-for-this-purpose' : caseOf(leader, LIVE)
}

function turnoverOf(input: CastCase, verdict: Verdict): SimulatedTurnover {
  const { extension, flySpeedAtTurn_m_s, leastSpeed_m_s } = verdict
  const { lineSpeed_m_s } = input.cast
  return { extension, flySpeedAtTurn_m_s, leastSpeed_m_s, lineSpeed_m_s, band: null }
}
