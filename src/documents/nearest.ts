/** The known word that was probably meant; undefined where none is near. */
export function nearestOf(word: string, known: readonly string[]): string | undefined {
  const [best] = known
    .map((candidate) => ({ candidate, edits: editsBetween(stemOf(word), stemOf(candidate)) }))
    .sort((a, b) => a.edits - b.edits)
  return best && best.edits <= Math.max(1, stemOf(best.candidate).length / 3)
    ? best.candidate
    : undefined
}

/** Without its unit, which is what is left out most, and without regard to capitals. */
const stemOf = (word: string): string => (word.split('_')[0] ?? word).toLowerCase()

/** Letters to put in, take out or change: V. I. Levenshtein, Sov. Phys. Dokl. 10:707, 1966. */
function editsBetween(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const changed = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)
      row.push(Math.min(above[j]! + 1, row[j - 1]! + 1, changed))
    }
    above = row
  }
  return above[b.length]!
}
