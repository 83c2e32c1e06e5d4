import type { Batch, ShelfSpool, Stock } from '../../engine/tying'
import type { Leader } from '../../engine/leader'
import type { BoxedFly, BriefDraft, LeaderInUse, Reel } from '../kept'
import type { Kind, KindId } from '../kind'
import type { Lesson } from '../lesson'
import { batch } from './batch'
import { brief } from './brief'
import { fly } from './fly'
import { formula } from './formula'
import { inUse } from './inUse'
import { lesson } from './lesson'
import { reel } from './reel'
import { spool } from './spool'
import { stock } from './stock'

interface Values {
  readonly formula: Leader
  readonly spool: ShelfSpool
  readonly batch: Batch
  readonly stock: Stock
  readonly lesson: Lesson
  readonly fly: BoxedFly
  readonly reel: Reel
  readonly brief: BriefDraft
  readonly inUse: LeaderInUse
}

export type ValueOf<K extends KindId> = Values[K]

/** All kinds by id. The first screen needs formulas only and takes them from `./formula`. */
export const KINDS: { readonly [K in KindId]: Kind<ValueOf<K>> } = {
  formula,
  spool,
  batch,
  stock,
  lesson,
  fly,
  reel,
  brief,
  inUse,
}
