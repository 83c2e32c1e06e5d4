export { readFormula, readFormulaText } from './read'
export type { ReadResult } from './read'
export { writeFormula, writeFormulaText } from './write'
export { problemText } from './problem'
export type { Problem } from './problem'
export { FORMAT, VERSION } from './schema'
export { readImportText, writeSetText } from './set'
export { readCastCases } from './castFile'
export type { CastJob } from './castFile'
export {
  readBriefDraft,
  readFlyBox,
  readLeaderInUse,
  readReel,
  writeBriefDraft,
  writeFlyBox,
  writeLeaderInUse,
  writeReel,
} from './kept'
export type { BoxedFly, BriefDraft, LeaderInUse, Reel } from './kept'
export { forLabel, LONGEST_CODE, readLink, writeLink } from './link'
export type { LinkResult } from './link'
export { readRecipe, writeRecipe } from './recipe'
export { readInventoryItem, writeInventoryItem } from './inventory'
export type { InventoryItem } from './inventory'
export { isBackupText, readBackup, writeBackup } from './backup'
export type { Backup, BackupItem, BackupResult } from './backup'
export { writeCsv } from './csv'
