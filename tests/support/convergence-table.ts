/** What the mesh of a flight is worth: the same casts on each mesh, and on one finer than any that is offered. */
import type { CastCase, CastChoices, MeshName } from '../../src/engine/cast'
import type { CasterId } from '../../src/engine/tackle'
import { caseOf, extensionAt, leastLineSpeed, runCast } from '../../src/engine/cast'
import { SHIPPED, leaderOf } from './formulas'

/** Varied on purpose: light and heavy flies, short and long leaders, low and high loops, wind, stalls. */
export const VARIED: readonly {
  readonly file: string
  readonly caster: CasterId
  readonly choices?: CastChoices
}[] = [
  { file: 'middle-sallow-9ft-5x', caster: 'ordinary' },
  { file: 'lower-sallow-hopper-8ft-2x', caster: 'learner' },
  { file: 'lower-sallow-hopper-8ft-2x', caster: 'strong' },
  { file: 'upper-sallow-glides-420cm-7x', caster: 'ordinary' },
  {
    file: 'saturday-class-level-line',
    caster: 'learner',
    choices: { cast: { lineSpeed_m_s: 13 } },
  },
  { file: 'saturday-class-reversed', caster: 'ordinary' },
  { file: 'middle-sallow-nymph-9ft-5x', caster: 'ordinary' },
  { file: 'lower-sallow-big-streamer-7ft-bite', caster: 'ordinary' },
  { file: 'ash-tarn-two-flies-15ft-4x', caster: 'learner' },
  { file: 'marram-haven-estuary-10ft-12lb', caster: 'ordinary', choices: { wind_m_s: -4 } },
  { file: 'middle-sallow-tight-line-6m-5x', caster: 'ordinary' },
  { file: 'upper-sallow-dry-11ft-6x', caster: 'strong', choices: { cast: { loopHeight_m: 0.3 } } },
]

type Shown = Exclude<MeshName, 'quick'>
const OFFERED: readonly Shown[] = ['coarse', 'usual', 'fine']

export interface Figures {
  readonly extension: number
  readonly lay: number | null
  readonly timeOfTurn_s: number | null
  readonly flySpeedAtTurn_m_s: number | null
  readonly leastSpeed_m_s: number | null
}

export type Row = (typeof VARIED)[number] & Readonly<Record<Shown, Figures>>

export function caseFor({ file, caster, choices }: (typeof VARIED)[number]): CastCase {
  const text = SHIPPED.find((f) => f.file === `${file}.json`)?.text
  if (text === undefined) throw new Error(`No formula ${file}`)
  const leader = leaderOf(text)
  const input = caseOf({ ...leader, outfit: { ...leader.outfit, caster } }, choices)
  if (typeof input === 'string') throw new Error(`${file}: ${input}`)
  return input
}

export function figuresOn(input: CastCase, mesh: MeshName, from_m_s: number): Figures {
  const flight = runCast({ ...input, mesh }, { stopWhenStraight: true })
  if (flight.status !== 'ok') throw new Error(flight.status)
  return {
    extension: rounded(flight.extension),
    lay: rounded(layOn(input, mesh)),
    timeOfTurn_s: rounded(flight.timeOfTurn_s),
    flySpeedAtTurn_m_s: rounded(flight.flySpeedAtTurn_m_s),
    leastSpeed_m_s: rounded(leastOn({ ...input, mesh }, from_m_s)),
  }
}

/** Longer than any of them is in the air, s. */
const DOWN_BY_S = 6

export function layOn(input: CastCase, mesh: MeshName): number | null {
  const flight = runCast({ ...input, mesh, endTime_s: DOWN_BY_S }, { stopAtTouch: true })
  if (flight.status !== 'ok') throw new Error(flight.status)
  return flight.lay
}

/** Where the last mesh's speed is nearly right, a narrow bracket saves most of the search. */
function leastOn(input: CastCase, near_m_s: number): number | null {
  let [fails, does] = [near_m_s * 0.98, near_m_s * 1.02]
  const reaches = (v: number) => extensionAt(input, v) >= 0.95
  if (reaches(fails) || !reaches(does))
    return leastLineSpeed(input, { from_m_s: near_m_s, tolerance_m_s: 0.05 })
  while (does - fails > 0.05) {
    const middle = (fails + does) / 2
    if (reaches(middle)) does = middle
    else fails = middle
  }
  return does
}

function rounded(value: number): number
function rounded(value: number | null): number | null
function rounded(value: number | null): number | null {
  return value === null ? null : Number(value.toPrecision(4))
}

/** One row; a known reference, which takes most of the time, is taken over. */
export function convergenceRow(varied: (typeof VARIED)[number], known?: Figures): Row {
  const input = caseFor(varied)
  let from = known?.leastSpeed_m_s ?? input.cast.lineSpeed_m_s
  const on = (mesh: MeshName) => {
    const figures = figuresOn(input, mesh, from)
    if (!known) from = figures.leastSpeed_m_s ?? from
    return figures
  }
  const [coarse, usual, fine] = OFFERED.map(on) as [Figures, Figures, Figures]
  return { ...varied, coarse, usual, fine, reference: known ?? on('reference') }
}
