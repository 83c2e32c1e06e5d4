import { watch } from 'vue'
import type { Draft } from '../storage/draft'
import { app } from '../wording/rooms/app'
import { keepDraft, keptDraft } from '../storage/draft'
import { useBench } from './bench'

type Field = HTMLInputElement | HTMLTextAreaElement

const TYPED = ['text', 'number', 'url', 'textarea']
/** How often, and how many times, a field is looked for that the page is still bringing in. */
const [PAUSE_MS, MOST_LOOKS] = [100, 50]

/**
 * Keeps what is typed into a field until it is entered, so that a reload or a crash does not take it: the next page
 * puts it back where it was, and says that it is not entered yet.
 */
export function startDrafts(): void {
  const [left, bench] = [keptDraft(), useBench()]
  keepWhatIsTyped()
  if (!left) return
  // The formula that it belongs to may come late.
  const isResumed = () => bench.isResumed
  watch(isResumed, (is) => is && void putBack(left), { immediate: true })
}

function keepWhatIsTyped(): void {
  let typedInto: Field | undefined
  const isEntered = () => typedInto?.dataset['draft'] === 'false'
  // A figure is entered in many ways, and its field says so.
  const seen = new MutationObserver(() => isEntered() && keepDraft(undefined))
  document.addEventListener('input', ({ target }) => {
    if (!isTyped(target)) return
    typedInto = target
    keepDraft(draftOf(target))
    seen.disconnect()
    seen.observe(target, { attributeFilter: ['data-draft'] })
  })
  // Entered, or taken back; what could not be read stays in its field, and stays a draft.
  const look = ({ target }: Event) =>
    setTimeout(() => {
      // By now the next field may have been typed into.
      if (target === typedInto && typedInto?.dataset['draft'] !== 'true') keepDraft(undefined)
    })
  document.addEventListener('change', look)
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') look(event)
  })
}

const isTyped = (target: EventTarget | null): target is Field =>
  (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) &&
  TYPED.includes(target.type) &&
  nameOf(target) !== ''

const nameOf = (field: Field): string =>
  field.getAttribute('aria-label') ?? field.labels?.[0]?.textContent?.trim() ?? ''

const fieldsCalled = (name: string): Field[] =>
  [...document.querySelectorAll<Field>('input, textarea')].filter((each) => nameOf(each) === name)

const place = (): string => window.location.hash

function draftOf(field: Field): Draft {
  const name = nameOf(field)
  return {
    place: place(),
    formula: useBench().id,
    field: name,
    nth: fieldsCalled(name).indexOf(field),
    text: field.value,
  }
}

async function putBack(draft: Draft): Promise<void> {
  const bench = useBench()
  for (let look = 0; look < MOST_LOOKS; look++) {
    const field = fieldsCalled(draft.field)[draft.nth]
    const isSamePage = place() === draft.place && bench.id === draft.formula
    if (field && isSamePage) {
      fill(field, draft.text)
      bench.notice = app.draft.back(draft)
      return
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS))
  }
  // The field is not there any more, say in a dialog that is closed: then the text is at least said.
  bench.notice = app.draft.lost(draft)
  keepDraft(undefined)
}

function fill(field: Field, text: string): void {
  field.focus()
  field.value = text
  field.dispatchEvent(new Event('input', { bubbles: true }))
  if (field.dataset['draft'] !== undefined) return
  // The browser does not count what a script wrote as a change, and would not tell of it.
  const enter = () => field.dispatchEvent(new Event('change', { bubbles: true }))
  field.addEventListener('blur', enter, { once: true })
}
