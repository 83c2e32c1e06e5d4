import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { CastCase, CastChoices, FlightResult, Reach, Sensitivity } from '../engine/cast'
import type { Leader } from '../engine/leader'
import type { CastClient } from '../worker/client'
import { caseOf, withSpeed } from '../engine/cast'
import { Superseded } from '../worker/client'
import { runReach, runSensitivity } from '../worker/spread'
import { fingerprintOf } from './casts'
import { messageOf } from '../engine/messageOf'

/** A flight that was asked for: of which leader, from what, and what came of it. */
export interface StoredFlight {
  readonly leader: Leader
  readonly input: CastCase
  readonly fingerprint: string
  readonly flown: FlightResult
  /** Extension at each of `speeds_m_s`, and the band of least speeds, as they arrive. */
  readonly extensions: readonly number[]
}

/** Line speeds at which the flight view draws extension, m/s. */
export const SPEEDS_M_S: readonly number[] = Array.from({ length: 15 }, (_, k) => 5 + k)

export type Slot = 'first' | 'second'

/** Whole flights with their frames, for looking at; one or two leaders at a time. */
export const useFlights = defineStore('flights', () => {
  const slots = shallowRef<Readonly<Partial<Record<Slot, StoredFlight>>>>({})
  const problems = shallowRef<Readonly<Partial<Record<Slot | 'explore', string>>>>({})
  let client: CastClient | undefined
  /** Asked for before there was anybody to fly it. */
  const early = new Map<Slot, () => void>()

  const ready = shallowRef(false)

  function start(pool: CastClient): void {
    client = pool
    ready.value = true
    for (const ask of early.values()) ask()
    early.clear()
  }

  function say(about: Slot | 'explore', problem?: string): void {
    problems.value = { ...problems.value, [about]: problem }
  }

  /** Flies a leader into a slot; a newer question of the same slot takes its place. */
  async function fly(slot: Slot, leader: Leader, choices: CastChoices): Promise<void> {
    const input = caseOf(leader, { mesh: 'usual', ...choices })
    if (typeof input === 'string') {
      clear(slot)
      say(slot, MISSING[input])
      return
    }
    const fingerprint = fingerprintOf(input)
    const stored = slots.value[slot]
    if (stored?.fingerprint === fingerprint) {
      // Whatever else was asked of this slot meanwhile is no longer wanted; the name may be new.
      client?.cancel(`flight-${slot}`)
      return put(slot, { ...stored, leader })
    }
    if (!client) {
      early.set(slot, () => void fly(slot, leader, choices))
      return
    }
    await carefully(slot, async (pool) => {
      const flown = await pool.run({ kind: 'flight', input }, { lane: `flight-${slot}` })
      put(slot, { leader, input, fingerprint, flown, extensions: [] })
      await sweep(pool, slot, fingerprint, input)
    })
  }

  function put(slot: Slot, flight: StoredFlight): void {
    slots.value = { ...slots.value, [slot]: flight }
    const { status } = flight.flown
    say(slot, status === 'ok' ? undefined : `This cast ${status}.`)
  }

  /** A newer question is no failure; anything else is told. */
  async function carefully<T>(
    about: Slot | 'explore',
    work: (pool: CastClient) => Promise<T>,
  ): Promise<T | undefined> {
    if (!client) return undefined
    try {
      return await work(client)
    } catch (error) {
      if (!(error instanceof Superseded)) say(about, messageOf(error))
      return undefined
    }
  }

  async function sweep(
    pool: CastClient,
    slot: Slot,
    fingerprint: string,
    input: CastCase,
  ): Promise<void> {
    const inputs = SPEEDS_M_S.map((v) => withSpeed({ ...input, mesh: 'coarse' }, v))
    const job = { kind: 'extensions', inputs } as const
    const take = (extensions: readonly number[] | null) => {
      const stored = slots.value[slot]
      if (extensions && stored?.fingerprint === fingerprint)
        slots.value = { ...slots.value, [slot]: { ...stored, extensions } }
    }
    take(
      await pool.run(job, {
        lane: `speeds-${slot}`,
        onProgress: ({ partial }) => take(partial),
      }),
    )
  }

  /** Sensitivities and reach of a leader; undefined where it cannot be cast or was stopped. */
  async function explore(
    leader: Leader,
    choices: CastChoices,
    onProgress: (share: number, partial: readonly Sensitivity[]) => void,
  ): Promise<{ reach: Reach; sensitivity: readonly Sensitivity[] } | undefined> {
    const quick = { ...choices, mesh: 'coarse' } as const
    const input = caseOf(leader, quick)
    if (typeof input === 'string') return undefined
    say('explore')
    // Differences are small: the coarse mesh would drown them.
    const fine = { ...input, mesh: 'usual' } as const
    return carefully('explore', async (pool) => {
      const sensitivity = await runSensitivity(pool, fine, 'sensitivity', onProgress)
      return { sensitivity, reach: await runReach(pool, leader, quick, 'reach') }
    })
  }

  /** How far tippet and fly of a leader can go; undefined where it cannot be cast, or was asked anew. */
  async function reach(leader: Leader): Promise<Reach | undefined> {
    return carefully('explore', (pool) => runReach(pool, leader, { mesh: 'coarse' }, 'brief'))
  }

  function stopExploring(): void {
    client?.cancel('sensitivity')
    client?.cancel('reach')
  }

  function clear(slot: Slot): void {
    early.delete(slot)
    client?.cancel(`flight-${slot}`)
    client?.cancel(`speeds-${slot}`)
    const { [slot]: _, ...others } = slots.value
    slots.value = others
    say(slot)
  }

  return {
    start,
    /** Whether there is anybody to fly. */
    ready,
    fly,
    clear,
    explore,
    reach,
    stopExploring,
    problem: computed(
      () => problems.value.first ?? problems.value.second ?? problems.value.explore,
    ),
    first: computed(() => slots.value.first),
    second: computed(() => slots.value.second),
  }
})

const MISSING = {
  'no-fly': 'This leader carries no fly. Choose one on the bench, and it can be cast.',
  'no-line': 'No fly line is chosen for this leader. Choose one on the bench, and it can be cast.',
} as const
