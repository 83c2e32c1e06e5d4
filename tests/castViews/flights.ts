/** Flights to look at: flown here, on the quick mesh. */
import type { ShownFlight } from '../../src/features/cast/flights'
import type { Leader } from '../../src/engine/leader'
import { extensionAt, sought } from '../../src/engine/cast'
import { SPEEDS_M_S } from '../../src/features/cast/flights'
import { stepsOf } from '../../src/worker/jobs'
import { fingerprintOf } from '../../src/stores/casts'
import { overloadedLeader, quickCase, soundLeader } from '../worker/casts'

function flownFlight(leader: Leader): ShownFlight {
  const input = quickCase(leader)
  return {
    leader,
    input,
    fingerprint: fingerprintOf({ kind: 'flight', input }),
    flown: sought(stepsOf({ kind: 'flight', input })),
    extensions: SPEEDS_M_S.slice(0, 3).map((v) => extensionAt(input, v)),
  }
}

export const sound = flownFlight({ ...soundLeader(), name: 'Sound' })
export const overloaded = flownFlight(overloadedLeader())
