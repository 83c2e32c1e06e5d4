/** Forty leaders over five formulas from fifteen spools: the target is under 200 ms. */
import { bench, describe } from 'vitest'
import { planBatch } from '../../src/engine/tying'
import { season } from '../engine/tying/shelf'

const { orders, spools } = season()
/** The same with too little on the shelf, which leaves more to search. */
const scarce = spools.map((spool) => ({ ...spool, left: { ...spool.left, si: spool.left.si / 6 } }))

describe('a batch of forty leaders', () => {
  bench('from fifteen spools', () => void planBatch(orders, spools, 0.05))
  bench('from fifteen spools with too little on them', () => void planBatch(orders, scarce, 0.05))
})
