import type { Piece } from '../engine/pieces'
import type { Leader } from '../engine/leader'
import type { Finding, Flown } from '../engine/checks'
import { sought } from '../engine/cast'
import { deliveryQuestion, deliverySteps } from '../engine/delivery'
import { evaluate } from '../engine/evaluate'
import { jointsIn } from '../engine/pieces'
import { readFormulaText } from '../documents'
import { printed } from './delivered'
import { print, say, sayProblems, textOf } from './terminal'

/**
 * Prints what the bench shows as JSON, one entry a file; SI units, names end in their unit.
 * The shape is documented in README.md and stable: fields are added, never renamed.
 * @returns exit code: 0, or 1 where a file could not be read (the others are reported all the same).
 */
export function main(words: readonly string[]): number {
  const paths = words.filter((word) => word !== DELIVERY)
  if (paths.length === 0) {
    say('Name at least one formula file: npm run --silent report -- formulas/*.json')
    return 1
  }
  const flies = words.includes(DELIVERY)
  const reports = paths.map((path) => reportFile(path, flies))
  const good = reports.filter((report) => report !== undefined)
  print(good)
  return good.length === paths.length ? 0 : 1
}

/** Flies each formula too. */
const DELIVERY = '--delivery'

function reportFile(file: string, flies: boolean) {
  const text = textOf(file)
  if (text === undefined) return undefined
  const result = readFormulaText(text)
  if (result.ok) {
    const { leader } = result
    if (!flies) return { file, ...reportLeader(leader) }
    const { delivery, flown } = fly(leader)
    return { file, ...reportLeader(leader, flown), delivery }
  }
  sayProblems(file, result.problems)
  return undefined
}

/** The report of one leader, judged by its delivery where that was flown; see README.md, "From the command line". */
export function reportLeader(leader: Leader, flown?: Flown) {
  const result = evaluate(leader, undefined, flown)
  const { profile, weakest, turnover, checks } = result
  return {
    name: leader.name,
    purpose: leader.purpose,
    totalLength_m: profile.total_m,
    statedTotal_m: leader.statedTotal?.si ?? null,
    mass_kg: profile.mass_kg,
    meanDensity_kg_m3: profile.meanDensity_kg_m3,
    segments: result.pieces.map(reportSegment),
    joints: jointsIn(result).map((joint) => ({
      place: joint.place,
      knot: joint.joint.knot,
      distance_m: joint.distance_m,
      stepDiameter_m: joint.step_m,
      diameterRatio: joint.diameterRatio,
      massRatio: joint.massRatio,
      stiffnessRatio: joint.stiffnessRatio,
      taperRate: joint.taperRate,
      breakingStrength_N: joint.strength.dry.value,
      breakingStrengthWet_N: joint.strength.wet.value,
    })),
    shares: profile.shares,
    weakest: {
      kind: weakest.kind,
      index: weakest.index,
      breakingStrength_N: weakest.strength.dry.value,
      breakingStrengthWet_N: weakest.strength.wet.value,
    },
    line: result.line,
    turnover:
      typeof turnover === 'string' ? { notChecked: turnover } : { ...turnover, estimated: true },
    findings: checks.findings.map(reportFinding),
    passed: checks.passed,
    notChecked: checks.notChecked,
  }
}

/** How a leader is delivered: as it is printed, and for the checks where it was flown. */
function fly(leader: Leader) {
  const asked = deliveryQuestion(leader)
  if (typeof asked === 'string') return { delivery: { notChecked: asked } }
  const delivered = sought(deliverySteps(asked))
  const delivery = printed(delivered)
  return 'failed' in delivered
    ? { delivery }
    : { delivery, flown: { delivery: delivered, remedies: [] } }
}

function reportSegment({ segment, profile, strength, cut }: Piece) {
  return {
    part: segment.part,
    material: segment.material,
    diameter_m: profile.diameter_m,
    diameterAsTyped: (segment.measured ?? segment.diameter).text,
    diameterIsEstimate:
      segment.measured === undefined && segment.diameter.estimatedFrom !== undefined,
    length_m: profile.length_m,
    lengthAsTyped: segment.length.text,
    cutLength_m: cut.cut_m,
    inKnots_m: cut.inKnots_m,
    trimmed_m: cut.trimmed_m,
    mass_kg: profile.mass_kg,
    linearDensity_kg_m: profile.linearDensity_kg_m,
    bendingStiffness_N_m2: profile.stiffness_N_m2,
    bendingStiffnessWet_N_m2: profile.wetStiffness_N_m2,
    breakingStrength_N: strength.dry.value,
    breakingStrengthWet_N: strength.wet.value,
    breakingStrengthSource: strength.dry.source,
    sinks: profile.sinks,
  }
}

function reportFinding({ id, variant, severity, place, measured, limit, source }: Finding) {
  return { id, variant, severity, place, measured, limit, source }
}
