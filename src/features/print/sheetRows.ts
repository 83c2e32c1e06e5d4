import type { Leader } from '../../engine/leader'
import type { Evaluation } from '../../engine/evaluate'
import type { Say } from '../../wording'
import { diameter_m, tippetIndex, totalLength_m } from '../../engine/leader'
import { knot } from '../../engine/materials'
import { formatSi } from '../../engine/units'
import { knotSteps, PART_NAMES, turnsText } from '../../wording'

/** One line of a bench sheet: the joint that begins the piece, the piece, and the length so far. */
export interface SheetRow {
  readonly no: number
  readonly knot: string
  readonly turns: string
  readonly steps: readonly string[]
  readonly piece: string
  readonly size: string
  readonly cut: string
  readonly finished: string
  readonly soFar: string
}

export function sheetRows({ pieces }: Evaluation, say: Say): SheetRow[] {
  let sum = 0
  return pieces.map(({ segment, profile, cut, above: { joint } }, i) => {
    sum += segment.length.si
    return {
      no: i + 1,
      knot: knot(joint.knot).name,
      turns: turnsText(joint),
      steps: knotSteps(joint.knot),
      piece: `${PART_NAMES[segment.part]}, ${profile.material.name.toLowerCase()}`,
      size: say.diameter(profile.diameter_m),
      cut: say.length(cut.cut_m),
      finished: say.length(segment.length.si),
      soFar: say.length(sum),
    }
  })
}

export interface LabelText {
  readonly name: string
  readonly length: string
  readonly tippet: string
  readonly butt: string
  /** Every piece, short: `36 × .019`. */
  readonly recipe: string
}

export function labelText(leader: Leader, say: Say, isMetric: boolean): LabelText {
  const [butt] = leader.segments
  const tippet = leader.segments[tippetIndex(leader)] ?? leader.segments.at(-1)
  const bare = (text: string) => text.replace(/ (in|cm|mm)$/, '')
  return {
    name: leader.name,
    length: formatSi(totalLength_m(leader), 'length', isMetric ? 'm' : 'ft-in'),
    tippet: tippet ? (tippet.measured ?? tippet.diameter).text : '',
    butt: butt ? say.diameter(diameter_m(butt)) : '',
    recipe: leader.segments
      .map(
        (s) => `${bare(say.length(s.length.si))}\u00a0×\u00a0${bare(say.diameter(diameter_m(s)))}`,
      )
      .join(', '),
  }
}
