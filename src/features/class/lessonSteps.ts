import type { SpeedUnit } from '../../engine/units'
import { formatSpeed } from '../../engine/units'
import type { Found } from '../../engine/explore'
import type { Lesson } from '../../documents/lesson'

/** The stations of a lesson, in order. */
export const LESSON_STEPS = ['question', 'cast', 'seen', 'exercise'] as const
export type LessonStep = (typeof LESSON_STEPS)[number]

export const STEP_NAMES: Readonly<Record<LessonStep, string>> = {
  question: 'The question',
  cast: 'The cast',
  seen: 'What was seen, and why',
  exercise: 'On the grass',
}

/** The station after (1) or before (-1) this one; the ends hold. A prediction must be committed to first. */
export function stepFrom(step: LessonStep, by: 1 | -1, hasPredicted: boolean): LessonStep {
  if (by === 1 && step === 'question' && !hasPredicted) return step
  const next = LESSON_STEPS.indexOf(step) + by
  return LESSON_STEPS[Math.min(LESSON_STEPS.length - 1, Math.max(0, next))] ?? step
}

/** What the class predicted beside what the cast shows. */
export function outcomeText({ predictions, shows }: Lesson, predicted: number | undefined): string {
  const right = predictions[shows] ?? ''
  if (predicted === undefined) return `The cast shows: ${right}.`
  if (predicted === shows) return `As predicted: ${right}.`
  return `Predicted: ${predictions[predicted] ?? ''}. The cast shows: ${right}.`
}

/** The figures of one leader's cast on a line. */
export function foundText(
  found: Pick<Found, 'extension' | 'flySpeedAtTurn_m_s'>,
  unit: SpeedUnit,
): string {
  const { extension, flySpeedAtTurn_m_s: speed } = found
  const round = speed === null ? 'never comes round' : `comes round at ${formatSpeed(speed, unit)}`
  return `extension ${Math.round(extension * 100)} %; the fly ${round}`
}
