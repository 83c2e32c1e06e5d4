/** Flights to look at: flown here, on the quick mesh. */
import type { StoredFlight } from '../../src/stores/flights'
import type { Leader } from '../../src/engine/leader'
import { extensionAt, sought } from '../../src/engine/cast'
import { SPEEDS_M_S } from '../../src/stores/flights'
import { stepsOf } from '../../src/worker/jobs'
import { fingerprintOf } from '../../src/stores/casts'
import { overloadedLeader, quickCase, soundLeader } from '../worker/casts'

function flownFlight(leader: Leader): StoredFlight {
  const input = quickCase(leader)
  return {
    leader,
    input,
    fingerprint: fingerprintOf(input),
    flown: sought(stepsOf({ kind: 'flight', input })),
    extensions: SPEEDS_M_S.slice(0, 3).map((v) => extensionAt(input, v)),
  }
}

export const sound = flownFlight({ ...soundLeader(), name: 'Sound' })
export const overloaded = flownFlight(overloadedLeader())
