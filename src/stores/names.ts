/** The name with a mark, "(mine)", or with a number where that is taken: "(mine 2)". */
export function freeName(name: string, mark: string, isTaken: (name: string) => boolean): string {
  const bare = name.replace(new RegExp(` \\(${mark}( \\d+)?\\)$`), '')
  let candidate = `${bare} (${mark})`
  for (let n = 2; isTaken(candidate); n++) candidate = `${bare} (${mark} ${n})`
  return candidate
}
