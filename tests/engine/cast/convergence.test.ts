// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { runCast } from '../../../src/engine/cast'
import { caseFor, figuresOn, layOn, VARIED } from '../../support/convergence-table'
import { relative } from './rig'
import table from '../../../src/features/explanation/convergence.json'

describe('table of convergence (own computation, tests/support/convergence.mjs)', () => {
  it('the table shows a row for each varied cast', () => {
    expect(table.rows.map((row) => row.file)).toEqual(VARIED.map((varied) => varied.file))
  })

  // One in a hundred: what a change of the loops' arithmetic may move; more, and the table is to be made anew.
  it.each([1, 7, 10])('row %i is what the usual mesh says today', (i) => {
    const { usual } = table.rows[i]!
    const now = figuresOn(caseFor(VARIED[i]!), 'usual', usual.leastSpeed_m_s)
    expect(Math.abs(now.extension - usual.extension)).toBeLessThan(0.01)
    expect(Math.abs(now.lay! - usual.lay)).toBeLessThan(0.02)
    expect(relative(now.timeOfTurn_s!, usual.timeOfTurn_s)).toBeLessThan(0.01)
    expect(relative(now.leastSpeed_m_s!, usual.leastSpeed_m_s)).toBeLessThan(0.02)
  })

  // What deliveries are flown on: between coarse and usual, as near to the usual one as that is to the fine one.
  it.each([1, 3, 5])('row %i lies on the mesh quick as on the usual one', (i) => {
    expect(Math.abs(layOn(caseFor(VARIED[i]!), 'quick')! - table.rows[i]!.usual.lay)).toBeLessThan(
      0.02,
    )
  })

  it('row 0 is what the fine mesh says today', () => {
    const { fine } = table.rows[0]!
    const now = runCast({ ...caseFor(VARIED[0]!), mesh: 'fine' }, { stopWhenStraight: true })
    expect(Math.abs(now.extension - fine.extension)).toBeLessThan(0.005)
    expect(relative(now.timeOfTurn_s!, fine.timeOfTurn_s)).toBeLessThan(0.005)
  })

  // The aim of the fine mesh. Its extension and time keep to it; the low loop's lay and speed at the turn do not.
  it('the table shows the fine mesh converged: extension to 0.005, time to 1.1 %, lay to 0.02 in eleven of twelve, speed at the turn to 2 % in ten', () => {
    for (const { fine, reference } of table.rows) {
      expect(Math.abs(fine.extension - reference.extension)).toBeLessThan(0.005)
      expect(relative(fine.timeOfTurn_s, reference.timeOfTurn_s)).toBeLessThan(0.011)
    }
    const lain = table.rows.filter(
      ({ fine, reference }) => Math.abs(fine.lay - reference.lay) < 0.02,
    )
    expect(lain.length).toBeGreaterThanOrEqual(11)
    const turned = table.rows.filter(
      ({ fine, reference }) =>
        relative(fine.flySpeedAtTurn_m_s, reference.flySpeedAtTurn_m_s) < 0.02,
    )
    expect(turned.length).toBeGreaterThanOrEqual(10)
  })
})
