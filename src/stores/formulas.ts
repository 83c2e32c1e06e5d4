import type { Leader } from '../engine/leader'
import { useBench } from './bench'
import { useLibrary } from './library'

/** A formula to choose from, as the bench or the library has it. */
export interface Choosable {
  readonly id: string
  readonly name: string
  readonly leader: Leader
}

/** Every formula that reads; the one on the bench as it stands there, and first. */
export function choosableFormulas(): Choosable[] {
  const [bench, library] = [useBench(), useLibrary()]
  const others = library.entries.flatMap(({ id, name }) => {
    const leader = id === bench.id ? undefined : library.leaderOf(id)
    return leader ? [{ id, name, leader }] : []
  })
  others.sort((a, b) => a.name.localeCompare(b.name))
  return [{ id: bench.id, name: bench.leader.name, leader: bench.leader }, ...others]
}
