import { computed } from 'vue'
import { defineStore } from 'pinia'
import type { Advice, Candidate, TippetReach } from '../engine/advice'
import type { Conditions, FlyChoice, Outfit } from '../engine/leader'
import type { BoxedFly, BriefDraft, Reel } from '../documents'
import { advise } from '../engine/advice'
import { parseDesignation } from '../engine/tackle'
import { parseWithUnit } from '../engine/units'
import {
  readBriefDraft,
  readFlyBox,
  readReel,
  writeBriefDraft,
  writeFlyBox,
  writeReel,
} from '../documents'
import { useBench } from './bench'
import { useLibrary } from './library'
import { useSettings } from './settings'
import { newId } from './shelf'

const MOST_CANDIDATES = 300

/** The brief as it is filled in, the fly box and the reel, all kept in this browser, and what the brief leads to. */
export const useBrief = defineStore('brief', () => {
  const [settings, library, bench] = [useSettings(), useLibrary(), useBench()]
  const draft = computed(() => readBriefDraft(settings.kept('brief')) ?? EMPTY)
  const box = computed(() => readFlyBox(settings.kept('flyBox')))
  const reel = computed<Reel>(() => readReel(settings.kept('reel')) ?? { backing: 'braid-20' })

  const candidates = computed<Candidate[]>(() =>
    library.entries.slice(0, MOST_CANDIDATES).flatMap(({ id }) => {
      const leader = library.leaderOf(id)
      return leader ? [{ id, leader }] : []
    }),
  )

  /** What the brief leads to, under a name that the screen gives. */
  function adviceFor(
    { fly, outfit, conditions }: BriefDraft,
    name: string,
    reach?: TippetReach,
  ): Advice {
    return advise(
      { fly: fly.fly, outfit, conditions },
      { candidates: candidates.value, name, choice: fly, reach },
    )
  }

  function change(patch: Partial<BriefDraft>): void {
    settings.change({ brief: writeBriefDraft({ ...draft.value, ...patch }) })
  }

  const setFly = (fly: FlyChoice) => change({ fly })
  const setOutfit = (patch: Partial<Outfit>) =>
    change({ outfit: present({ ...draft.value.outfit, ...patch }) })
  const setConditions = (patch: Partial<Conditions>) =>
    change({ conditions: { ...draft.value.conditions, ...patch } })

  function setReel(patch: Partial<Reel>): void {
    settings.change({ reel: writeReel({ ...reel.value, ...patch }) })
  }

  function putFly(name: string, fly: FlyChoice): void {
    const flies = [...box.value.flies, { id: newId(), name, fly }]
    settings.change({ flyBox: writeFlyBox({ ...box.value, flies }) })
  }

  /** Takes a fly out; what is given back puts it where it was. */
  function removeFly({ id }: BoxedFly): () => void {
    const before = box.value
    const flies = before.flies.filter((f) => f.id !== id)
    settings.change({ flyBox: writeFlyBox({ ...before, flies }) })
    return () => settings.change({ flyBox: writeFlyBox(before) })
  }

  /** Adds the advised leader to the formulas and lays it on the bench. */
  async function openOnBench({ made }: Advice): Promise<boolean> {
    if (!made) return false
    const name = library.markedName(made.leader.name, 'brief')
    const id = await library.add({ ...made.leader, name })
    return bench.open(id)
  }

  return {
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
