import { mount } from '@vue/test-utils'
import { describe, expect, it } from 'vitest'
import OwnMaterial from '../../../src/features/bench/OwnMaterial.vue'
import { evaluate } from '../../../src/engine/evaluate'
import { withMaterial } from '../../../src/engine/leader'
import { sourced } from '../../../src/engine/materials'
import { readFormula, writeFormula } from '../../../src/documents'
import { startingLeader } from '../../../src/stores/startingLeader'

const own = (value: number) => sourced(value, value, value, 'your own figure')
const SILK = {
  name: 'Silkworm gut',
  family: 'nylon' as const,
  density: own(1300),
  modulus: own(5e9),
  wetModulus: own(0.4),
  tensileStrength: own(400e6),
  wetStrength: own(0.7),
}

function filled(fields: Record<string, string>) {
  const form = mount(OwnMaterial)
  const inputs = form.findAll('input')
  const labels = form.findAll('label').map((label) => label.text())
  for (const [label, value] of Object.entries(fields)) {
    const at = labels
      .filter((text) => !text.startsWith('Family'))
      .findIndex((text) => text.startsWith(label))
    void inputs[at]?.setValue(value)
  }
  return form
}

describe('a material of the user’s own', () => {
  it('comes out in SI with every figure marked as theirs', async () => {
    const form = filled({ Name: 'Gut', Density: '1300', Modulus: '5', Breaking: '400' })
    await form.get('button').trigger('click')
    expect(form.emitted('add')?.[0]?.[0]).toMatchObject({
      name: 'Gut',
      density: { value: 1300, source: 'your own figure' },
      modulus: { value: 5e9 },
      tensileStrength: { value: 400e6 },
    })
  })

  it('says which field is wrong and what it takes, and adds nothing', async () => {
    const form = filled({ Name: 'Gut', Density: '3' })
    await form.get('button').trigger('click')
    expect(form.get('[role=alert]').text()).toContain(
      'Density, kg/m³: this field takes a number from 500',
    )
    expect(form.emitted('add')).toBeUndefined()
  })

  it('wants a name', async () => {
    const form = filled({})
    await form.get('button').trigger('click')
    expect(form.get('[role=alert]').text()).toContain('name')
    expect(form.emitted('add')).toBeUndefined()
  })

  it('is carried by the leader, computed with, and survives its file', () => {
    const leader = withMaterial(withMaterial(startingLeader('Gut'), 0, SILK), 1, SILK)
    expect(leader.materials.map((m) => m.id)).toEqual(['own-1', 'own-2'])
    expect(evaluate(leader).pieces[0]?.profile.material.density.value).toBe(1300)
    const back = readFormula(writeFormula(leader))
    expect(back.ok && back.leader.segments[0]?.material).toBe('own-1')
    expect(back.ok && evaluate(back.leader).profile.mass_kg).toBe(evaluate(leader).profile.mass_kg)
  })
})
