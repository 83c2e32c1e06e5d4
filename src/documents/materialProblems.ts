import type { Problem } from './problem'
import { BUILT_IN_MATERIALS } from '../engine/materials'
import { shown } from './problem'

type Json = Readonly<Record<string, unknown>>

/**
 * Materials that are named but neither built in nor defined in the file, and ids defined twice. It looks
 * at the file as it stands, so that these are found even where other fields are wrong.
 */
export function materialProblems(file: Json): Problem[] {
  const own = idsOf(file['materials'])
  const known = [...BUILT_IN_MATERIALS.map((m) => m.id), ...own]
  const segments = records(file['segments'])
  return [
    ...twice(own),
    ...segments.flatMap(([segment, i]) => [
      ...unknown(segment, `segments[${i}].material`, known),
      ...records(segment['attachments']).flatMap(([attachment, k]) =>
        unknown(attachment, `segments[${i}].attachments[${k}].material`, known),
      ),
    ]),
  ]
}

/** The objects of a list with their indices; nothing where it is no list. */
function records(list: unknown): (readonly [Json, number])[] {
  if (!Array.isArray(list)) return []
  return list.flatMap((value: unknown, i) =>
    typeof value === 'object' && value !== null ? [[value as Json, i] as const] : [],
  )
}

function idsOf(materials: unknown): unknown[] {
  return Array.isArray(materials) ? materials.map((m: Json | null) => m?.['id']) : []
}

function twice(ids: readonly unknown[]): Problem[] {
  return ids.flatMap((id, i) =>
    typeof id === 'string' && ids.indexOf(id) < i
      ? [{ path: `materials[${i}].id`, found: shown(id), expected: 'an id that no other has' }]
      : [],
  )
}

function unknown({ material }: Json, path: string, known: readonly unknown[]): Problem[] {
  if (typeof material !== 'string' || known.includes(material)) return []
  const ids = known.filter((id) => typeof id === 'string')
  return [{ path, found: shown(material), expected: `one of ${ids.join(', ')}` }]
}
