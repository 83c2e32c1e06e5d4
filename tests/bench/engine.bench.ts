/**
 * What live editing costs: the target for evaluate() of twenty segments is under 50 microseconds as it is
 * bundled for the page. Vitest's own module loading makes it about half as slow again here.
 */
import { bench, describe } from 'vitest'
import { cutList } from '../../src/engine/tying'
import { estimateTurnover } from '../../src/engine/cast'
import { limitsFor, runChecks } from '../../src/engine/checks'
import { evaluate } from '../../src/engine/evaluate'
import { piecesOf } from '../../src/engine/pieces'
import { jointsOf, profileOf, sampleProfile } from '../../src/engine/profile'
import { strengthOf } from '../../src/engine/strength'
import { parseQuantity } from '../../src/engine/units'
import { leaderOf, soundLeader } from '../engine/build'

/** Twenty pieces from .021 to .0055 in, each a like share thinner than the one above. */
function twentySegments() {
  const pieces = Array.from({ length: 20 }, (_, i) => ({
    length: i < 8 ? '7 in' : i < 17 ? '6 in' : '9 in',
    diameter: `${(0.021 * 0.933 ** i).toFixed(4)} in`,
    part: i < 8 ? ('butt' as const) : i < 17 ? ('mid-section' as const) : ('tippet' as const),
  }))
  const { outfit, tip } = soundLeader()
  return leaderOf(pieces, { outfit, tip })
}

const leader = twentySegments()
const profile = profileOf(leader)
const pieces = piecesOf(leader)
const limits = limitsFor(leader.purpose)
const sound = soundLeader()

describe('evaluate', () => {
  bench('a leader of twenty segments', () => void evaluate(leader))
  bench('an ordinary leader of seven segments', () => void evaluate(sound))
})

describe('parts of evaluate, twenty segments', () => {
  bench('profile', () => void profileOf(leader))
  bench('joints', () => void jointsOf(leader, profile))
  bench('strength', () => void strengthOf(leader))
  bench('cut list', () => void cutList(leader))
  bench('turnover estimate', () => void estimateTurnover(leader, profile))
  bench('limits', () => void limitsFor(leader.purpose))
  bench('checks', () => void runChecks({ leader, ...pieces, limits }))
})

describe('beside evaluate', () => {
  bench('profile sampled at 400 places', () => void sampleProfile(profile, 400))
  bench('one length read', () => void parseQuantity(`7' 6"`, 'length', 'in'))
})
