import type { Brief } from './brief'
import type { Material } from '../materials'
import type { Reason } from './reason'
import { BUILT_IN_MATERIALS, WATER_DENSITY_KG_M3 } from '../materials'
import { floats } from '../tackle'
import { isStreamer } from './brief'
import { CP, reason } from './reason'

export interface MaterialAdvice {
  readonly material: Material
  /** The other that could be taken. */
  readonly instead: Material
  readonly reasons: readonly Reason[]
}

function builtIn(id: string): Material {
  const found = BUILT_IN_MATERIALS.find((m) => m.id === id)
  if (!found) throw new RangeError(`There is no built-in material "${id}".`)
  return found
}

/** Nylon for what floats, fluorocarbon for what sinks, and what each costs (common practice). */
export function materialAdvice({ fly, conditions }: Brief): MaterialAdvice {
  const nylon = builtIn(isStreamer(fly) ? 'copolymer' : 'nylon-supple')
  const fluorocarbon = builtIn('fluorocarbon')
  const isAfloat = floats(fly.style)
  const isFilm = fly.style === 'emerger'
  const [material, instead] = isAfloat || isFilm ? [nylon, fluorocarbon] : [fluorocarbon, nylon]
  const { value, source } = material.density
  const densities = {
    density_kg_m3: value,
    other_kg_m3: instead.density.value,
    water_kg_m3: WATER_DENSITY_KG_M3,
  }
  return {
    material,
    instead,
    reasons: [
      isFilm
        ? reason('material-film', {}, source)
        : isAfloat
          ? reason('material-floats', densities, source)
          : reason('material-sinks', densities, source),
      reason(
        'material-stiffness',
        { wet_Pa: wetModulus(material), other_Pa: wetModulus(instead) },
        material.modulus.source,
      ),
      ...(material === fluorocarbon && (conditions.snags || conditions.water === 'salt-water')
        ? [reason('material-abrasion', {}, CP)]
        : []),
      ...(material === fluorocarbon
        ? [reason('material-knots', {}, CP), reason('material-cost', {}, CP)]
        : []),
    ],
  }
}

const wetModulus = ({ modulus, wetModulus: factor }: Material) => modulus.value * factor.value
