export type Shortcut = 'undo' | 'redo' | 'library'

/** Undo and redo as everywhere else; Ctrl with K opens the formulas. */
export function shortcutOf(event: KeyboardEvent): Shortcut | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined
  const key = event.key.toLowerCase()
  if (key === 'z') return event.shiftKey ? 'redo' : 'undo'
  if (key === 'y') return 'redo'
  return key === 'k' ? 'library' : undefined
}

/** While a text is changed and not yet committed, or is committed as it is typed, undo belongs to the text. */
export function isEditing(event: KeyboardEvent): boolean {
  const target = event.target
  if (!(target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)) return false
  return target.dataset['draft'] !== 'false'
}
