import { describe, expect, it } from 'vitest'
import { differenceTexts } from '../../../src/wording'
import { insertSegment, removeSegment, setSegment } from '../../../src/engine/leader'
import { q, size, soundLeader } from '../../engine/build'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const leader = soundLeader()

describe('what differs between two versions', () => {
  it('is nothing where nothing does', () => {
    expect(differenceTexts(leader, soundLeader())).toEqual([])
  })

  it('is said piece by piece', () => {
    const changed = setSegment(setSegment(leader, 2, { diameter: size('.0145 in') }), 6, {
      length: q('30 in'),
    })
    expect(differenceTexts(leader, { ...changed, name: 'other' })).toEqual([
      'name test, now other',
      'piece 3, diameter .015 in, now .0145 in',
      'piece 7, length 26 in, now 30 in',
    ])
  })

  it('is one line for a piece put in or taken out', () => {
    const { key: _, ...piece } = leader.segments[3]!
    const longer = insertSegment(leader, 3, { ...piece, length: q('5 in') })
    expect(differenceTexts(leader, longer)).toEqual(['piece 4 put in: 5 in of .012 in'])
    expect(differenceTexts(longer, removeSegment(longer, 3))).toEqual([
      'piece 4 taken out: 5 in of .012 in',
    ])
  })
})

describe('versions', () => {
  it('say when one is kept, where there is none', () => {
    const wrapper = stand(fixtures['VersionsView.vue']!)
    expect(wrapper.text()).toContain('Versions of')
    wrapper.unmount()
  })
})
