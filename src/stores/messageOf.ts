/** What an error says; storage words its own so that they can be shown. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
