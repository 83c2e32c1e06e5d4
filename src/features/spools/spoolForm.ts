import type { ShelfSpool, Spool } from '../../engine/tying'
import type { DiameterUnit, SpoolLengthUnit } from '../../engine/units'
import { left_m } from '../../engine/tying'
import { BUILT_IN_MATERIALS } from '../../engine/materials'
import { figure } from '../../wording/figures'
import { spools as words } from '../../wording/rooms/spools'
import { parseWithUnit, quantityOf } from '../../engine/units'

const FULL = '30 m'

/** A spool that nobody has described yet. */
export function blankSpool(id: string, unit: DiameterUnit | 'typed'): Spool {
  const read = parseWithUnit(FULL, 'spool-length')
  const left = read.status === 'read' ? read.quantity : quantityOf(30, 'spool-length', 'm')
  return {
    id,
    material: 'nylon-supple',
    size: quantityOf(1.524e-4, 'diameter', unit === 'typed' ? 'X' : unit),
    readings: [],
    pullTests: [],
    left,
    full: left,
    state: 'good',
  }
}

const materialName = ({ material }: Pick<Spool, 'material'>): string =>
  BUILT_IN_MATERIALS.find(({ id }) => id === material)?.name ?? material

/** Length left in the unit it was stated in: `12.4 m of 30 m`. */
export function leftText(spool: ShelfSpool): string {
  const unit = spool.left.unit as SpoolLengthUnit
  const now =
    spool.taken_m === 0 && !spool.left.bare
      ? spool.left.text
      : figure(left_m(spool), 'spool-length', unit)
  if (!spool.full) return now
  return words.table.leftOf({ left: now, full: figure(spool.full.si, 'spool-length', unit) })
}

/** By material, then from stout to fine, as spools stand on a shelf. */
export function onTheShelf(spools: readonly ShelfSpool[]): ShelfSpool[] {
  return [...spools].sort(
    (a, b) =>
      materialName(a).localeCompare(materialName(b)) ||
      b.size.si - a.size.si ||
      a.id.localeCompare(b.id),
  )
}

export function spoolName(spool: Spool): string {
  const { size, label, colour } = spool
  const written = size.bare ? figure(size.si, 'diameter', size.unit) : size.text
  return [materialName(spool), written, label, colour].filter(Boolean).join(' ')
}
