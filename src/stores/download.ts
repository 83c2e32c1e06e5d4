/** Hands a file to the browser; the address lives only as long as the click needs it. */
export function download(name: string, content: string | Blob, type: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(
    typeof content === 'string' ? new Blob([content], { type }) : content,
  )
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 1000)
}

/** A name that every file system takes, without its ending. */
export function fileStem(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  return plain || 'leader'
}
