import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Advice, Candidate, Made } from '../engine/advice'
import type { Conditions, FlyChoice, Outfit } from '../engine/leader'
import type { BoxedFly, BriefDraft, Reel } from '../documents'
import { advise } from '../engine/advice'
import { parseDesignation } from '../engine/tackle'
import { parseWithUnit } from '../engine/units'
import { brief as BRIEF } from '../documents/kinds/brief'
import { fly as FLY } from '../documents/kinds/fly'
import { reel as REEL } from '../documents/kinds/reel'
import { useBench } from './bench'
import { newId, useItems } from './items'
import { draftOf, keepOrSay, putTheOne, theOne, valuesOf } from './kept'
import { useLibrary } from './library'

const MOST_CANDIDATES = 300

/** The brief as it is filled in, the fly box and the reel, all kept in this browser, and what the brief leads to. */
export const useBrief = defineStore('brief', () => {
  const [items, library, bench] = [useItems(), useLibrary(), useBench()]
  const draft = computed(() => theOne(items, BRIEF)?.value ?? EMPTY)
  const box = computed(() => [...valuesOf(items, FLY).values()])
  const reel = computed(() => theOne(items, REEL)?.value ?? EMPTY_REEL)

  const candidates = computed<Candidate[]>(() =>
    library.entries.slice(0, MOST_CANDIDATES).flatMap(({ id }) => {
      const leader = library.leaderOf(id)
      return leader ? [{ id, leader }] : []
    }),
  )

  /** What the brief leads to, under a name that the screen gives. */
  function adviceFor({ fly, outfit, conditions }: BriefDraft, name: string): Advice {
    return advise(
      { fly: fly.fly, outfit, conditions },
      { candidates: candidates.value, name, choice: fly },
    )
  }

  const edit = (step: (draft: BriefDraft) => BriefDraft) =>
    putTheOne(items, BRIEF, (before = EMPTY) => step(before))
  const change = (patch: Partial<BriefDraft>) => edit((before) => ({ ...before, ...patch }))
  const setFly = (fly: FlyChoice) => change({ fly })
  const setOutfit = (patch: Partial<Outfit>) =>
    edit((before) => ({ ...before, outfit: present({ ...before.outfit, ...patch }) }))
  const setConditions = (patch: Partial<Conditions>) =>
    edit((before) => ({ ...before, conditions: { ...before.conditions, ...patch } }))
  const setReel = (patch: Partial<Reel>) =>
    putTheOne(items, REEL, (before = EMPTY_REEL) => ({ ...before, ...patch }))

  const keepFly = (value: BoxedFly) =>
    keepOrSay(items, () => [draftOf(items, { kind: FLY, id: value.id, value })])
  const putFly = (name: string, fly: FlyChoice) => keepFly({ id: newId(), name, fly })

  /** Takes a fly out; what is given back puts it where it was. */
  function removeFly(fly: BoxedFly): () => void {
    void items.act(() => [{ kind: FLY.id, id: fly.id, file: undefined }])
    return () => keepFly(fly)
  }

  /** Adds the advised leader to the formulas and lays it on the bench. */
  async function openOnBench({ leader }: Made): Promise<boolean> {
    const name = library.markedName(leader.name, 'brief')
    const id = await library.add({ ...leader, name })
    return bench.open(id)
  }

  return {
    /** Why what was done is not kept. */
    problem: computed(() => items.problem.value),
    draft,
    box,
    reel,
    adviceFor,
    change,
    setFly,
    setOutfit,
    setConditions,
    setReel,
    putFly,
    removeFly,
    openOnBench,
  }
})

function present(outfit: Outfit): Outfit {
  const kept = Object.entries(outfit).filter(([, value]) => value !== undefined)
  return Object.fromEntries(kept)
}

const read = (text: string, dimension: 'length' | 'mass') => {
  const reading = parseWithUnit(text, dimension)
  if (reading.status !== 'read') throw new TypeError(`"${text}" does not read as a ${dimension}.`)
  return reading.quantity
}

const EMPTY_REEL: Reel = { backing: 'braid-20' }

/** What an empty brief begins with: an ordinary day, to be changed by six choices. */
const EMPTY: BriefDraft = {
  fly: { fly: { style: 'parachute', hook: 14 } },
  outfit: {
    rod: read('9 ft', 'length'),
    rodClass: 5,
    line: parseDesignation('WF5F') ?? {
      designation: 'WF5F',
      taper: 'WF',
      weight: 5,
      buoyancy: 'F',
    },
    fish: read('1 lb', 'mass'),
    caster: 'ordinary',
  },
  conditions: { water: 'riffle', wariness: 'usual', distance: 'usual', wind: 'calm' },
}
