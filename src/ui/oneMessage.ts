/** How the message that stands open now is put away. */
let close: (() => void) | undefined

/** Puts away the message of another field and takes its place. */
export function closeOther(own: () => void): void {
  if (close !== own) close?.()
  close = own
}
