import { afterEach, describe, expect, it } from 'vitest'
import type { VueWrapper } from '@vue/test-utils'
import { FORMULAS } from '../../../src/features/explanation/formulas'
import convergence from '../../../src/features/explanation/convergence.json'
import { CASTER_IDS } from '../../../src/engine/tackle'
import { stand } from '../../support/fixture'
import { fixtures } from './fixtures'

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

function show(file: string): VueWrapper {
  const fixture = fixtures[file]
  if (!fixture) throw new Error(`no fixture for ${file}`)
  const wrapper = stand(fixture)
  standing.push(wrapper)
  return wrapper
}

describe('the page for instructors', () => {
  it('gives every formula with its source', () => {
    const page = show('View.vue')
    const rows = page.findAll('table')[1]?.findAll('tbody tr') ?? []
    expect(rows).toHaveLength(FORMULAS.length)
    for (const [i, { what, formula, source }] of FORMULAS.entries()) {
      const cells = rows[i]?.findAll('th, td').map((one) => one.text())
      expect(cells).toEqual([what, formula, source])
      expect(source).not.toBe('')
    }
  })

  it('says by what a leader is judged, and which part of that is a guess', () => {
    const page = show('View.vue')
    const text = page.text()
    for (const words of [
      '40 casts are flown',
      'right in sign, unmeasured in size',
      'with recoil left aside',
      'All these limits are estimates',
      'Judged in the air, by one cast that is the same for all',
    ])
      expect(text).toContain(words)
    const casters = page
      .findAll('table')[0]
      ?.findAll('tbody th')
      .map((one) => one.text())
    expect(casters).toEqual(CASTER_IDS)
    expect(text).not.toMatch(/slap|delicate|tip fly alone/)
  })

  it('names the place where the model stops, and how sure it is', () => {
    const text = show('View.vue').text()
    for (const words of [
      'one upright plane',
      'rod tip stands still',
      'within about 30 %',
      'does not settle with fine tippets',
    ])
      expect(text).toContain(words)
  })

  it('tells when it is closed', async () => {
    const page = show('View.vue')
    await page.get('header button').trigger('click')
    expect(page.emitted('go')).toHaveLength(1)
  })
})

describe('the table of meshes', () => {
  it('has a row for every cast, as wide as its head, and no figure that is no number', () => {
    const table = show('ConvergenceTable.vue')
    const rows = table.findAll('tbody tr')
    expect(rows).toHaveLength(convergence.rows.length)
    const heads = table.findAll('thead tr')[1]?.findAll('th').length
    for (const row of rows) {
      const figures = row.findAll('td').map((one) => one.text())
      expect(figures).toHaveLength(heads ?? -1)
      for (const figure of figures) expect(figure).toMatch(/^(−?\d+\.\d+|–)$/)
    }
  })

  it('shows the figures of the file, coarse to finest', () => {
    const [first] = convergence.rows
    const figures = show('ConvergenceTable.vue')
      .get('tbody tr')
      .findAll('td')
      .map((one) => one.text())
    expect(figures[0]).toBe(first?.coarse.extension.toFixed(3))
    expect(figures[3]).toBe(first?.reference.extension.toFixed(3))
    expect(figures[4]).toBe(first?.coarse.lay.toFixed(2))
    expect(figures[15]).toBe(first?.reference.flySpeedAtTurn_m_s.toFixed(1))
  })
})
