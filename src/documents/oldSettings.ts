/** What the settings held until every item was kept by itself: lessons, flies, the brief, the reel, the leader in use. */

type Fields = Readonly<Record<string, unknown>>

/** An item as it lay there. */
export interface ItemAmong {
  readonly kind: string
  readonly id: string
  readonly file: unknown
}

/** There is one of each of these, under the name of its kind. */
const SINGLES = ['brief', 'reel', 'inUse'] as const

export function itemsAmong(settings: unknown): ItemAmong[] {
  const fields = fieldsOf(settings)
  return [
    ...Object.entries(fieldsOf(fields['lessons'])).map(([id, file]) => item('lesson', id, file)),
    ...fliesIn(fields['flyBox']),
    ...SINGLES.filter((kind) => (fields[kind] ?? undefined) !== undefined).map((kind) =>
      item(kind, kind, fields[kind]),
    ),
  ]
}

const item = (kind: string, id: string, file: unknown): ItemAmong => ({
  kind,
  id,
  file: file ?? null,
})

/** An entry of the box that has no id, or another's, gets one by its place, the same at every try. */
function fliesIn(box: unknown): ItemAmong[] {
  const seen = new Set<string>()
  return (Array.isArray(box) ? (box as unknown[]) : []).map((file, i) => {
    const { id } = fieldsOf(file)
    let own = typeof id === 'string' && id !== '' ? id : `fly-${i}`
    while (seen.has(own)) own = `${own}-${i}`
    seen.add(own)
    return item('fly', own, file)
  })
}

/** The settings without them. */
export function scalarsAmong(settings: unknown): Fields {
  const { lessons: _l, flyBox: _f, brief: _b, reel: _r, inUse: _i, ...scalars } = fieldsOf(settings)
  return scalars
}

/** What the shed held says its kind; what does not counts as a spool, and is told as unreadable there. */
export function shedKindOf(file: unknown): string {
  const kind = fieldsOf(file)['kind']
  return typeof kind === 'string' ? kind : 'spool'
}

const fieldsOf = (value: unknown): Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : {}
