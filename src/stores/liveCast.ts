import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { CastCase, Presentation, SimulatedTurnover } from '../engine/cast'
import type { Simulation } from '../engine/checks'
import type { Leader } from '../engine/leader'
import { rulingPurpose } from '../engine/leader'
import type { Verdict } from '../worker/protocol'
import { caseOf, presentationOf, STRAIGHT_EXTENSION } from '../engine/cast'
import { limitsFor, turnoverCandidates } from '../engine/checks'
import { useBench } from './bench'
import { fingerprintOf, partOf, reasonOf, useCasts, valueOf } from './casts'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { FIRST_SHIPPED } from './shipped'

/** The simulated cast of the leader on the bench, and what it is compared with. */
export interface LiveCast extends Simulation {
  readonly leader: Leader
  /** Text of everything that went into the run. */
  readonly fingerprint: string
  readonly presentation: Presentation | null
  readonly yardstick: { readonly name: string; readonly least_m_s: number | null } | undefined
}

const TARGET = STRAIGHT_EXTENSION
const BAND_SAMPLES = 200
/** What is shown of a cast is flown as the cast view flies it; long searches make do with a coarser mesh. */
const LIVE = { mesh: 'usual' } as const
const SEARCH_MESH = 'coarse'

const verdictOn = (input: CastCase | undefined) =>
  input && ({ kind: 'verdict', input, target: TARGET, searchMesh: SEARCH_MESH } as const)

/** The cast of the leader that is on the bench now, and of the yardstick, as far as they have been flown. */
export const useLiveCast = defineStore('liveCast', () => {
  const [bench, library, settings, casts] = [useBench(), useLibrary(), useSettings(), useCasts()]

  /** The same object while no edit was one that a cast feels. */
  const input = computed<CastCase | undefined>((before) => {
    const now = liveCase(bench.leader)
    return JSON.stringify(now) === JSON.stringify(before) ? before : now
  })
  const question = computed(() => verdictOn(input.value))
  const asked = casts.ask(() => question.value, 'bench')
  const verdict = computed(() => flightOf(valueOf(asked.value)))

  const yardstickId = computed(() => settings.yardstick ?? FIRST_SHIPPED.id)
  const yardLeader = computed(() => library.leaderOf(yardstickId.value))
  const yardVerdict = casts.ask(
    () => verdictOn(yardLeader.value && liveCase(yardLeader.value)),
    'bench',
  )
  /** Without a measure there is no comparison, nor of a leader with itself. */
  const yardstick = computed(() => {
    const [measured, leader] = [flightOf(valueOf(yardVerdict.value)), yardLeader.value]
    if (!measured || !leader || bench.id === yardstickId.value) return undefined
    return { name: leader.name, least_m_s: measured.leastSpeed_m_s }
  })

  const cures = casts.ask(() => {
    if (!verdict.value || verdict.value.extension >= TARGET) return undefined
    // No cast feels name and notes, so an edit of them asks for nothing new.
    const { notes: _, ...felt } = bench.leader
    const leader = { ...felt, name: '' }
    const candidates = turnoverCandidates(leader, limitsFor(rulingPurpose(leader), settings.limits))
    return { kind: 'cures', leader, choices: LIVE, candidates } as const
  }, 'background')

  const band = casts.ask(() => {
    const now = input.value
    if (!now || !verdict.value) return undefined
    const from_m_s = verdict.value.leastSpeed_m_s ?? now.cast.lineSpeed_m_s
    const coarse = { ...now, mesh: SEARCH_MESH } as const
    return { kind: 'band', input: coarse, target: TARGET, from_m_s, samples: BAND_SAMPLES } as const
  }, 'background')

  const turnover = computed<SimulatedTurnover | undefined>(() => {
    if (!input.value || !verdict.value) return undefined
    const { extension, flySpeedAtTurn_m_s, leastSpeed_m_s } = verdict.value
    const { lineSpeed_m_s } = input.value.cast
    const known = partOf(band.value) ?? null
    return { extension, flySpeedAtTurn_m_s, leastSpeed_m_s, lineSpeed_m_s, band: known }
  })

  const cast = computed<LiveCast | undefined>(() => {
    if (!turnover.value || !input.value || !question.value) return undefined
    return {
      leader: bench.leader,
      fingerprint: fingerprintOf(question.value),
      turnover: turnover.value,
      presentation: presentationOf(input.value, turnover.value.flySpeedAtTurn_m_s),
      yardstick: yardstick.value,
      cures: valueOf(cures.value) ?? [],
    }
  })

  const problem = computed(() => {
    const status = valueOf(asked.value)?.status
    const reason =
      [asked, cures, band].map(({ value }) => reasonOf(value)).find(Boolean) ??
      (status === 'ok' ? undefined : status)
    return reason && `The cast could not be simulated (${reason}); the estimate stands.`
  })

  return { cast, problem, yardstick }
})

/** A tight-line rig is swung, so there is no loop to simulate; nor without fly or line. */
function liveCase(leader: Leader): CastCase | undefined {
  if (leader.purpose === 'tight-line-nymph') return undefined
  const input = caseOf(leader, LIVE)
  return typeof input === 'string' ? undefined : input
}

/** A flight that came to no end says nothing of the leader. */
const flightOf = (verdict: Verdict | undefined) => (verdict?.status === 'ok' ? verdict : undefined)
