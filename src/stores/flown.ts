import { computed, shallowRef, triggerRef } from 'vue'
import { defineStore } from 'pinia'
import type { CastCase, FlightResult } from '../engine/cast'
import type { CastClient } from '../worker/client'
import { Superseded } from '../worker/client'
import { runExtensions } from '../worker/spread'
import { fingerprintOf } from './casts'
import { messageOf } from '../engine/messageOf'

/** Flights that are kept though nobody asks for them at the moment; each holds some hundreds of kB of frames. */
const MOST_SPARE = 60
/** Flights under way at a time: no more than there are workers, so that the bench's question is soon next. */
const AT_ONCE = 2

/** A case with the text that tells it from all others. */
interface Asked {
  readonly fingerprint: string
  readonly input: CastCase
}

/**
 * Whole flights by what they were flown from: asked for in lists, the first of a list first, each flown
 * once. A newer list of the same owner takes the place of its older one.
 */
export const useFlown = defineStore('flown', () => {
  const flights = shallowRef(new Map<string, FlightResult>())
  const problem = shallowRef<string>()
  const wanted = new Map<string, readonly Asked[]>()
  const underWay = new Set<string>()
  let client: CastClient | undefined

  function start(pool: CastClient): void {
    client = pool
    pump()
  }

  /** The flight of a case, once it has been flown. */
  const of = (input: CastCase): FlightResult | undefined => flights.value.get(textOf(input))

  function want(owner: string, inputs: readonly CastCase[]): void {
    const asked = inputs.map((input) => ({ fingerprint: textOf(input), input }))
    wanted.set(owner, asked)
    forget()
    pump()
  }

  /** Lets the oldest go of what nobody wants. */
  function forget(): void {
    const inUse = new Set([...wanted.values()].flat().map(({ fingerprint }) => fingerprint))
    const spare = [...flights.value.keys()].filter((fingerprint) => !inUse.has(fingerprint))
    for (const fingerprint of spare.slice(0, Math.max(0, spare.length - MOST_SPARE)))
      flights.value.delete(fingerprint)
  }

  const isOpen = ({ fingerprint }: Asked) =>
    !flights.value.has(fingerprint) && !underWay.has(fingerprint)
  const next = () => [...wanted.values()].flat().find(isOpen)

  function pump(): void {
    while (client && underWay.size < AT_ONCE) {
      const asked = next()
      if (!asked) return
      underWay.add(asked.fingerprint)
      void fly(client, asked)
    }
  }

  async function fly(pool: CastClient, { fingerprint, input }: Asked): Promise<void> {
    try {
      flights.value.set(fingerprint, await pool.run({ kind: 'flight', input }))
      triggerRef(flights)
      problem.value = undefined
    } catch (error) {
      // Not asked for again by itself: what fails once would fail for ever.
      for (const [owner, asked] of wanted)
        wanted.set(
          owner,
          asked.filter((each) => each.fingerprint !== fingerprint),
        )
      problem.value = `A cast could not be simulated (${messageOf(error)}).`
    }
    underWay.delete(fingerprint)
    pump()
  }

  /** What each case reaches; undefined where a newer survey of the lane, or its end, came first. */
  async function survey(
    lane: string,
    inputs: readonly CastCase[],
    onProgress: (known: readonly number[]) => void,
  ): Promise<readonly number[] | undefined> {
    if (!client) return undefined
    try {
      return await runExtensions(client, inputs, lane, onProgress)
    } catch (error) {
      if (!(error instanceof Superseded))
        problem.value = `A cast could not be simulated (${messageOf(error)}).`
      return undefined
    }
  }

  const endSurvey = (lane: string): void => client?.cancel(lane)

  return { start, of, want, survey, endSurvey, problem: computed(() => problem.value) }
})

const texts = new WeakMap<CastCase, string>()

function textOf(input: CastCase): string {
  const known = texts.get(input) ?? fingerprintOf(input)
  texts.set(input, known)
  return known
}
