/** How safely this browser keeps what it keeps. */
export interface Room {
  readonly isPersistent: boolean
  readonly isNearlyFull: boolean
  readonly words: string
}

const NEARLY_FULL = 0.85

/** Asks the browser not to throw anything away when space runs short; false where it does not promise it. */
export async function askToKeep(): Promise<boolean> {
  try {
    return (await navigator.storage?.persist?.()) ?? false
  } catch {
    return false
  }
}

export async function roomLeft(): Promise<Room> {
  try {
    const isPersistent = (await navigator.storage?.persisted?.()) ?? false
    const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.()) ?? {}
    const isNearlyFull = quota > 0 && usage / quota > NEARLY_FULL
    return {
      isPersistent,
      isNearlyFull,
      words: `${keptWords(isPersistent)} ${spaceWords(usage, quota)}`.trim(),
    }
  } catch {
    return { isPersistent: false, isNearlyFull: false, words: keptWords(false) }
  }
}

const keptWords = (isPersistent: boolean) =>
  isPersistent
    ? 'The browser has promised to keep everything until you remove it.'
    : 'The browser may clear what it keeps when space runs short, or after weeks without a visit.'

function spaceWords(usage: number, quota: number): string {
  if (quota === 0) return ''
  const used = `${(usage / 1e6).toFixed(1)} MB of ${Math.round(quota / 1e6)} MB are used.`
  return usage / quota > NEARLY_FULL
    ? `${used} That is nearly all: back up, then free some space.`
    : used
}
