// @vitest-environment node
import { createPinia } from 'pinia'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { useBench } from '../../src/stores/bench'
import { storesOf } from './tab'

type Bench = ReturnType<typeof useBench>
type Act =
  | { readonly do: 'edit'; readonly notes: string; readonly key?: string }
  | { readonly do: 'undo' | 'redo' | 'endMerge' }

/** Undo as a list of states and a finger on one of them; merging overwrites the state pointed at. */
class ListModel {
  states = [{ notes: '', label: '' }]
  at = 0
  key: string | undefined

  act(act: Act): void {
    if (act.do === 'edit') this.edit(act.notes, act.key)
    else this.step(act.do)
  }

  step(kind: 'undo' | 'redo' | 'endMerge'): void {
    if (kind === 'undo' && this.at > 0) this.at--
    else if (kind === 'redo' && this.at < this.states.length - 1) this.at++
    else if (kind !== 'endMerge') return
    this.key = undefined
  }

  edit(notes: string, key: string | undefined): void {
    if (this.notes === notes) return
    const merges = key !== undefined && key === this.key
    const label = merges ? (this.states[this.at]?.label ?? '') : `to ${notes}`
    this.states = this.states.slice(0, merges ? this.at : this.at + 1)
    this.key = key
    if (this.states.at(-1)?.notes === notes) this.key = undefined
    else this.states.push({ notes, label })
    this.at = this.states.length - 1
  }

  get notes() {
    return this.states[this.at]?.notes
  }

  get seen() {
    return {
      notes: this.notes,
      canUndo: this.at > 0,
      canRedo: this.at < this.states.length - 1,
      undoLabel: this.at > 0 ? this.states[this.at]?.label : undefined,
      redoLabel: this.states[this.at + 1]?.label,
    }
  }
}

function perform(bench: Bench, act: Act): void {
  if (act.do !== 'edit') return bench[act.do]()
  bench.edit(`to ${act.notes}`, (leader) => ({ ...leader, notes: act.notes }), act.key)
}

const seen = ({ leader, canUndo, canRedo, undoLabel, redoLabel }: Bench) => ({
  notes: leader.notes ?? '',
  canUndo,
  canRedo,
  undoLabel,
  redoLabel,
})

const edits = fc.record(
  {
    do: fc.constant('edit' as const),
    notes: fc.constantFrom('a', 'b', 'c'),
    key: fc.constantFrom('length', 'name'),
  },
  { requiredKeys: ['do', 'notes'] },
)
const others = fc.record({ do: fc.constantFrom('undo', 'undo', 'redo', 'endMerge') })
const acts = fc.array(fc.oneof(edits, others), { maxLength: 40 })

describe('undo', () => {
  it('behaves as a list of states whatever is done', () => {
    fc.assert(
      fc.property(acts, (sequence) => {
        const { bench } = storesOf(createPinia())
        bench.openNew()
        const model = new ListModel()
        for (const act of sequence as Act[]) {
          perform(bench, act)
          model.act(act)
          expect(seen(bench)).toEqual(model.seen)
        }
      }),
      { numRuns: 300 },
    )
  })

  it('reaches back a thousand edits', () => {
    const { bench } = storesOf(createPinia())
    bench.openNew()
    const start = bench.leader
    for (let i = 0; i < 1000; i++) bench.edit('Notes', (leader) => ({ ...leader, notes: `${i}` }))
    for (let i = 0; i < 1000; i++) bench.undo()
    expect(bench.leader).toEqual(start)
    expect(bench.canUndo).toBe(false)
  })
})
