import type { ComputedRef } from 'vue'
import { computed, onScopeDispose, shallowReactive, watch } from 'vue'
import { defineStore } from 'pinia'
import type { CastCase } from '../engine/cast'
import type { CastClient } from '../worker/client'
import type { Question, ValueOf } from '../worker/spread'
import { ENGINE_VERSION } from '../engine/cast'
import { messageOf } from '../engine/messageOf'
import { Superseded } from '../worker/client'
import { work } from '../worker/spread'

export type Answer<V> =
  | {
      readonly state: 'done'
      readonly value: V
      /** Of which inputs, on which mesh and by which engine. */
      readonly fingerprint: string
      readonly mesh: CastCase['mesh'] | undefined
      readonly engineVersion: number
    }
  | { readonly state: 'pending'; readonly partial?: V }
  | { readonly state: 'failed'; readonly reason: string }

type Known = Answer<ValueOf<Question>>

/** What is flown first: what the bench shows, then what other screens show, then what is worked out ahead. */
const URGENCIES = ['bench', 'cast', 'brief', 'class', 'ahead', 'background'] as const
export type Urgency = (typeof URGENCIES)[number]

/**
 * Answers that are kept though nobody asks for them at the moment. The largest are flights, some hundreds
 * of kB of frames each: sixty are nearly two whole ranges of the class, and some 20 MB.
 */
export const MOST_SPARE = 60

/** A question that somebody asks, and how urgently each of them wants it. */
interface Asked {
  readonly question: Question
  readonly askers: Map<symbol, Urgency>
}

const PENDING = { state: 'pending' } as const

/**
 * The one place where casts are asked for, and the only user of the workers. Each question is worked out
 * once, for as long as anybody asks it; answers are kept by what went into them, the least recently wanted
 * let go first. What fails is not tried again by itself, but when it is asked anew.
 */
export const useCasts = defineStore('casts', () => {
  const answers = shallowReactive(new Map<string, Known>())
  const wanted = new Map<string, Asked>()
  /** Answers that nobody asks for, the least recently wanted first. */
  const spare = new Set<string>()
  let pool: CastClient | undefined

  /** Brings the workers; what was asked before is begun. */
  function start(workers: CastClient): void {
    pool = workers
    pool.orderBy((lane) => rankOf(wanted.get(lane ?? '')))
    for (const [key, { question }] of wanted)
      if (answers.get(key)?.state === 'pending') void begin(key, question)
  }

  /** Asks for as long as the calling scope stands, what is first in the list first. */
  function askAll(questions: () => readonly Question[], urgency: Urgency): void {
    const asker = Symbol(urgency)
    let held = new Set<string>()
    const hold = (now: ReadonlyMap<string, Question>) => {
      const before = held
      held = new Set(now.keys())
      for (const [key, question] of now) if (!before.has(key)) want(key, question, asker, urgency)
      for (const key of before) if (!held.has(key)) letGo(key, asker)
    }
    watch(() => new Map(questions().map((each) => [fingerprintOf(each), each])), hold, {
      immediate: true,
    })
    onScopeDispose(() => hold(new Map()))
  }

  /** Asks one question, or none, for as long as the calling scope stands; its answer follows the question. */
  function ask<Q extends Question>(
    question: () => Q | undefined,
    urgency: Urgency,
  ): ComputedRef<Answer<ValueOf<Q>> | undefined> {
    const asked = computed(question)
    askAll(() => (asked.value ? [asked.value] : []), urgency)
    return computed(() => asked.value && answerTo(asked.value))
  }

  /** What is known of a question, which may be asked elsewhere or no longer. */
  function answerTo<Q extends Question>(question: Q): Answer<ValueOf<Q>> {
    return (answers.get(fingerprintOf(question)) ?? PENDING) as Answer<ValueOf<Q>>
  }

  function want(key: string, question: Question, asker: symbol, urgency: Urgency): void {
    const asked = wanted.get(key)
    if (asked) {
      asked.askers.set(asker, urgency)
      return
    }
    wanted.set(key, { question, askers: new Map([[asker, urgency]]) })
    spare.delete(key)
    if (!answers.has(key)) void begin(key, question)
  }

  function letGo(key: string, asker: symbol): void {
    const asked = wanted.get(key)
    if (!asked?.askers.delete(asker) || asked.askers.size > 0) return
    wanted.delete(key)
    if (answers.get(key)?.state === 'done') {
      spare.add(key)
      forgetOldest()
      return
    }
    answers.delete(key)
    pool?.cancel(key)
  }

  function forgetOldest(): void {
    const [oldest] = spare
    if (oldest === undefined || spare.size <= MOST_SPARE) return
    spare.delete(oldest)
    answers.delete(oldest)
  }

  async function begin(key: string, question: Question): Promise<void> {
    answers.set(key, PENDING)
    if (!pool) return
    try {
      const hear = (partial: ValueOf<Question>) => answers.set(key, { state: 'pending', partial })
      const value = await work(pool, question, key, hear)
      const of = { fingerprint: key, mesh: meshOf(question), engineVersion: ENGINE_VERSION }
      answers.set(key, { state: 'done', value, ...of })
    } catch (error) {
      // What was given up has nobody to be told, or was begun anew.
      if (error instanceof Superseded) return
      answers.set(key, { state: 'failed', reason: messageOf(error) })
    }
  }

  /** Asks anew what has failed and is still asked. */
  function retry(): void {
    for (const [key, { question }] of wanted)
      if (answers.get(key)?.state === 'failed') void begin(key, question)
  }

  return { start, ask, askAll, answerTo, retry }
})

/** What is known of an answer so far: its value, or the part of it that is there. */
export const partOf = <V>(answer: Answer<V> | undefined): V | undefined =>
  answer?.state === 'done' ? answer.value : answer?.state === 'pending' ? answer.partial : undefined

export const valueOf = <V>(answer: Answer<V> | undefined): V | undefined =>
  answer?.state === 'done' ? answer.value : undefined

export const reasonOf = (answer: Answer<unknown> | undefined): string | undefined =>
  answer?.state === 'failed' ? answer.reason : undefined

const rankOf = (asked: Asked | undefined): number =>
  Math.min(...[...(asked?.askers.values() ?? [])].map((urgency) => URGENCIES.indexOf(urgency)))

const texts = new WeakMap<Question, string>()

/** Inputs as a text: two questions with the same text are the same question. */
export function fingerprintOf(question: Question): string {
  const text = texts.get(question) ?? JSON.stringify(question)
  texts.set(question, text)
  return text
}

function meshOf(question: Question): CastCase['mesh'] | undefined {
  return 'input' in question ? question.input.mesh : question.inputs[0]?.mesh
}
