import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Component } from 'vue'
import type { Pinia } from 'pinia'
import type { VueWrapper } from '@vue/test-utils'
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia } from 'pinia'
import type { Leader } from '../../src/engine/leader'
import type { Judgement } from '../../src/engine/delivery'
import type { Storage } from '../../src/storage'
import VersionsView from '../../src/features/backup/VersionsView.vue'
import FiguresBand from '../../src/features/bench/FiguresBand.vue'
import FindingsPanel from '../../src/features/bench/FindingsPanel.vue'
import RigDialog from '../../src/features/bench/RigDialog.vue'
import AdvicePanel from '../../src/features/brief/AdvicePanel.vue'
import CastView from '../../src/features/cast/View.vue'
import SideBySide from '../../src/features/class/SideBySide.vue'
import WaterView from '../../src/features/leaderInUse/View.vue'
import PrintView from '../../src/features/print/View.vue'
import { printed } from '../../src/cli/delivered'
import { writeFormula } from '../../src/documents'
import { deliveryQuestion } from '../../src/engine/delivery'
import { sayIn } from '../../src/wording'
import { useBench } from '../../src/stores/bench'
import { useBenchDelivery } from '../../src/stores/benchDelivery'
import { useCasts, valueOf } from '../../src/stores/casts'
import { useClassroom } from '../../src/stores/classroom'
import { useInUse } from '../../src/stores/inUse'
import { provideStorage } from '../../src/stores/provided'
import type { Ways } from '../worker/inProcess'
import { adviceFor, CANDIDATES } from '../engine/advice/briefs'
import { inProcessPool } from '../worker/inProcess'

// Happy-dom has no canvas; no chart is looked at here.
vi.mock('vue-chartjs', () => ({ Scatter: { template: '<i></i>' } }))

const UNITS = { diameter: 'in', length: 'in', force: 'lb', speed: 'm/s' } as const
const say = sayIn(UNITS)

function shipped(id: string): Leader {
  const found = CANDIDATES.find((each) => each.id.endsWith(`/${id}.json`))
  if (!found) throw new Error(`no formula ${id}`)
  return found.leader
}

function withoutFly(leader: Leader): Leader {
  const { fly: _, ...tip } = leader.tip
  return { ...leader, tip }
}

/** What each state is called; of what is not thrown, why. */
const TITLES: Readonly<Record<string, string>> = {
  easily: 'Goes over easily',
  'surely enough': 'Goes over surely enough',
  'only just': 'Only just goes over',
  'falls short': 'Falls short',
  'will not go over': 'Will not go over',
  'no-fly': 'Choose a fly',
  lobbed: 'Not judged: this is lobbed',
}

/** Six leaders: three that go over, one that fails, one without a fly, one that is lobbed. */
const LEADERS = [
  ['a dry leader', shipped('middle-sallow-9ft-5x')],
  ['a streamer leader', shipped('lower-sallow-streamer-7ft-1x')],
  ['a nymph leader', shipped('middle-sallow-nymph-9ft-5x')],
  ['one that fails', shipped('saturday-class-long-butt')],
  ['one without a fly', withoutFly(shipped('middle-sallow-9ft-5x'))],
  ['one that is lobbed', shipped('middle-sallow-tight-line-6m-5x')],
] as const

/** A leader that was thrown, in the stores that know of it, and what must be said of it in every place. */
interface Thrown {
  readonly pinia: Pinia
  readonly leader: Leader
  readonly judgement: Judgement
  readonly title: string
  /** undefined where it is not thrown. */
  readonly casts: string | undefined
  readonly speed: string | undefined
}

let thrown: Thrown
const standing: VueWrapper[] = []

afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
  window.location.hash = ''
})

function standIn(component: Component, props: object = {}): VueWrapper {
  const mounted: unknown = mount(component, {
    attachTo: document.body,
    props,
    global: { plugins: [thrown.pinia] },
  })
  const wrapper = mounted as VueWrapper
  standing.push(wrapper)
  return wrapper
}

async function textOf(wrapper: VueWrapper): Promise<string> {
  await flushPromises()
  return wrapper.text().replace(/\s+/g, ' ')
}

const textIn = (component: Component, props?: object) => textOf(standIn(component, props))

/** All of it, or, where leaders stand beside each other on a line, title and casts; and nothing else. */
function expectVerdict(text: string, isLine = false): void {
  const { title, casts, speed } = thrown
  for (const each of [title, casts, isLine ? undefined : speed])
    if (each !== undefined) expect(text).toContain(each)
  const others = Object.values(TITLES).filter((other) => !title.includes(other))
  for (const other of others) expect(text).not.toContain(other)
}

const SOON = { timeout: 55_000 }

/** On the bench of stores of its own; once it has been thrown, nothing more is. */
async function throwIt(leader: Leader): Promise<Thrown> {
  const pinia = createPinia()
  const ways: { -readonly [K in keyof Ways]: Ways[K] } = {
    answers: { flight: new Error('not flown here'), extensions: [] },
  }
  const [bench, casts] = [useBench(pinia), useCasts(pinia)]
  bench.edit('given', leader)
  bench.readDeliveries(useBenchDelivery(pinia))
  casts.start(inProcessPool(ways).pool)
  await vi.waitFor(() => expect(bench.judgement.kind).not.toBe('checking'), SOON)
  ways.silent = ['errand']
  return { pinia, leader, judgement: bench.judgement, ...printedWords(casts, leader) }
}

/** What the command line prints of it, in words. */
function printedWords(casts: ReturnType<typeof useCasts>, leader: Leader) {
  const asked = deliveryQuestion(leader)
  if (typeof asked === 'string')
    return { title: TITLES[asked] ?? asked, casts: undefined, speed: undefined }
  const report = printed(valueOf(casts.answerTo({ ...asked, kind: 'delivery' }))!)
  const { state, best } = report
  if (!best) throw new Error(report.notChecked)
  const { room, lineSpeed_m_s } = best
  return {
    title: TITLES[state] ?? state,
    casts: `${Math.round(room * 100)} of 100 casts`,
    speed: `${Number(lineSpeed_m_s.toFixed(1))} m/s`,
  }
}

describe.each(LEADERS)('the verdict of %s', (_, of) => {
  beforeAll(async () => {
    thrown = await throwIt(of)
  }, SOON.timeout)

  it('stands on the bench', async () => {
    const { leader, judgement } = thrown
    const { evaluation, yardstick } = useBench(thrown.pinia)
    expectVerdict(
      await textIn(FiguresBand, { leader, evaluation, say, units: UNITS, judgement, yardstick }),
    )
  })

  it('is a finding where it fails, and none where it does not', async () => {
    const { leader, title } = thrown
    const { checks } = useBench(thrown.pinia).evaluation
    const text = await textIn(FindingsPanel, { report: checks, leader, say })
    if (/short|not go/.test(title)) expectVerdict(text)
    else expect(text).not.toMatch(/Falls short|Will not go over/)
  })

  it('stands on the page of the cast', async () => {
    expectVerdict(await textIn(CastView))
  })

  it('stands in the brief', async () => {
    const { leader, judgement } = thrown
    const advice = adviceFor()
    const made = { ...advice.tries[0]!, leader }
    const choice = { taken: 0, next: undefined, reason: undefined, isHopeless: false }
    const chosen = { made, choice, judgement, plain: judgement }
    expectVerdict(await textIn(AdvicePanel, { advice, chosen, say, total: say.length }))
  })

  it('stands side by side in the class', async () => {
    useClassroom(thrown.pinia).seats = [{ source: 'given', leader: thrown.leader }]
    expectVerdict(await textIn(SideBySide))
  })

  it.each(['class', 'bench'])('stands on the %s sheet', async (sheet) => {
    window.location.hash = `#sheets/${sheet}`
    expectVerdict(await textIn(PrintView))
  })

  it('stands at the water', async () => {
    useInUse(thrown.pinia).start(thrown.leader)
    expectVerdict(await textIn(WaterView))
  })

  it('stands in the dialog of its rig', async () => {
    expectVerdict(await textIn(RigDialog, { leader: thrown.leader, say }))
  })

  it('stands beside an earlier version', async () => {
    const file = writeFormula(thrown.leader)
    const kept = { revision: 1, savedAt: '2026-01-01T08:00:00.000Z', file }
    provideStorage(
      Promise.resolve({ versions: () => Promise.resolve([kept]) } as unknown as Storage),
    )
    const wrapper = standIn(VersionsView)
    await flushPromises()
    await wrapper.get('input[type="radio"]').setValue(true)
    const text = await textOf(wrapper)
    expectVerdict(text, true)
    // Then and now are the same leader here.
    expect(text.split(thrown.title)).toHaveLength(3)
  })
})
