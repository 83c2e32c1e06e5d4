// @vitest-environment node
import { describe, expect, it } from 'vitest'
import type { Delivery } from '../../../src/engine/delivery'
import { sought } from '../../../src/engine/cast'
import { deliverySteps } from '../../../src/engine/delivery'
import { askedOf, direct } from '../../support/rooms-trial'

// All of it is `node tests/support/rooms.mjs`: ten leaders, two casters, 400 casts each.
describe('room by the quick way against casts drawn directly', () => {
  it('an ordinary dry leader', () => {
    const asked = askedOf('middle-sallow-9ft-4x', 'ordinary')
    const { best } = sought(deliverySteps(asked)) as Delivery
    const halves = direct(asked, best, 100, 'coarse')
    // A hundred casts know a share of .75 to .04, and meshes differ by as much.
    expect(Math.abs(best.room - (halves[0]! + halves[1]!) / 2)).toBeLessThan(0.12)
    expect(best.room).toBeGreaterThan(0.6)
  })
})
