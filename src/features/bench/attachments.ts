import type { Attachment, Leader } from '../../engine/leader'
import { materialsOf } from '../../engine/leader'
import { knot } from '../../engine/materials'
import { formatHook } from '../../engine/tackle'
import { FLY_NAMES, WAY_NAMES } from '../../wording'

/** What hangs beyond the single strand, in a sentence. */
export function describeAttachment(hanging: Attachment, leader: Leader): string {
  const { kind, way, from, length, diameter, material, fly } = hanging
  const parts = [
    length && `${length.text} long`,
    diameter?.text,
    material &&
      materialsOf(leader)
        .find((m) => m.id === material)
        ?.name.toLowerCase(),
    way && WAY_NAMES[way],
    hanging.knot && knot(hanging.knot).name.toLowerCase(),
    fly && `${FLY_NAMES[fly.fly.style].toLowerCase()} ${formatHook(fly.fly.hook)}`,
    from && `${from.text} below the knot`,
  ].filter(Boolean)
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)}`
  return parts.length > 0 ? `${name}: ${parts.join(', ')}.` : `${name}.`
}
