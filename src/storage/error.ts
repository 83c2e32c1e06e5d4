const ON = 'You can work on, but export your formulas before you close this page.'

const MESSAGES = {
  denied: `This browser keeps nothing for this page: storage is switched off, or the window is private. ${ON}`,
  newer: `A newer Taperwright keeps its formulas in this browser. Reload this page to get it. ${ON}`,
  blocked: `Another tab still has an older Taperwright open. Close it, then reload this page. ${ON}`,
  full: `The browser has no room left for your formulas. Free some disk space, or remove formulas you have exported. ${ON}`,
  failed: `The browser could not keep your formulas. Export them, then reload this page.`,
} as const

export type StorageReason = keyof typeof MESSAGES

/** Storage that cannot be had or written to. The message says what to do and is fit to be shown. */
export class StorageError extends Error {
  readonly reason: StorageReason

  constructor(reason: StorageReason, cause?: unknown) {
    super(MESSAGES[reason], { cause })
    this.name = 'StorageError'
    this.reason = reason
  }
}

/** What the browser's own errors mean. */
const REASONS: Readonly<Record<string, StorageReason>> = {
  VersionError: 'newer',
  SecurityError: 'denied',
  QuotaExceededError: 'full',
}

/** Some browsers refuse storage in private windows as an invalid state, some by not having it at all. */
const REASONS_AT_OPENING = {
  ...REASONS,
  InvalidStateError: 'denied',
  ReferenceError: 'denied',
  TypeError: 'denied',
} as const

export const storageError = (error: unknown) => named(error, REASONS)
export const openingError = (error: unknown) => named(error, REASONS_AT_OPENING)

function named(error: unknown, reasons: Readonly<Record<string, StorageReason>>): StorageError {
  if (error instanceof StorageError) return error
  const name = error instanceof Error || error instanceof DOMException ? error.name : ''
  return new StorageError(reasons[name] ?? 'failed', error)
}
