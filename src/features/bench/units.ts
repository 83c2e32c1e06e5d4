export { isSameUnits, spokenUnits, totalUnit } from '../../wording'
export type { UnitChoice } from '../../wording'
