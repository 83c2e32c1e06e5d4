/** A text that was typed into a field and not yet entered. One at a time: leaving a field enters what is in it. */
export interface Draft {
  /** The address and the formula that were open. */
  readonly place: string
  readonly formula: string
  /** What the field is called, and which of the fields called so it is. */
  readonly field: string
  readonly nth: number
  readonly text: string
}

const KEY = 'taperwright-draft'

/** Written at every keystroke and at once, since the page may be gone a moment later; undefined takes it out. */
export function keepDraft(draft: Draft | undefined): void {
  try {
    if (draft) localStorage.setItem(KEY, JSON.stringify(draft))
    else localStorage.removeItem(KEY)
  } catch {
    // Without it a text that was not entered is lost with the page, as in any other page.
  }
}

/** The draft that a page before this one has left. */
export function keptDraft(): Draft | undefined {
  try {
    const draft: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null')
    return isDraft(draft) ? draft : undefined
  } catch {
    return undefined
  }
}

function isDraft(value: unknown): value is Draft {
  if (typeof value !== 'object' || value === null) return false
  const fields = value as Readonly<Record<string, unknown>>
  return (
    ['place', 'formula', 'field', 'text'].every((name) => typeof fields[name] === 'string') &&
    typeof fields['nth'] === 'number'
  )
}
