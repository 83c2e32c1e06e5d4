/** Runs in a page that will be killed: writes formulas without pause and says what has been acknowledged. */
import type { Storage } from '../../src/storage'
import { openStorage } from '../../src/storage'
import { list, put } from './formulaStorage'

const IDS = ['a', 'b', 'c', 'd', 'e']
/** Long enough that a half-written text would show. */
const PIECES = 400

const fileOf = (id: string, n: number) => ({
  id,
  n,
  pieces: Array.from({ length: PIECES }, () => n),
})

interface Told {
  readonly id: string
  readonly n: number
  readonly is: 'sent' | 'kept'
}

/** Goes on from what is there until the tab dies. */
async function writeOn(tell: (told: Told) => Promise<void>): Promise<void> {
  const storage = await openStorage()
  const seen = new Map((await list(storage)).map((f) => [f.id, f]))
  for (let i = 0; ; i++) {
    const id = IDS[i % IDS.length] ?? 'a'
    const before = seen.get(id)
    const n = (before ? numberIn(before.file) : 0) + 1
    // Heard before it is written, so that nothing can be there that was not announced.
    await tell({ id, n, is: 'sent' })
    const formula = { id, savedAt: new Date().toISOString(), file: fileOf(id, n) }
    const result = await put(storage, { ...formula, basedOn: before?.revision })
    if (!result.ok) throw new Error(`${id} was changed by nobody else`)
    seen.set(id, { ...formula, revision: result.revision })
    void tell({ id, n, is: 'kept' })
    await alsoInTheInventory(storage, i)
  }
}

/** Two items in one write: both of them are there, or neither. */
async function alsoInTheInventory(storage: Storage, i: number): Promise<void> {
  if (i % 3 !== 0) return
  const kept = await inventoryIn(storage)
  const revision = (id: string) => kept.find((item) => item.id === id)?.revision
  const n = kept.length > 0 ? numberIn(kept[0]?.file) + 1 : 1
  const changes = ['batch', 'spool'].map((id) => ({
    kind: id,
    id,
    file: fileOf(id, n),
    savedAt: '',
    basedOn: revision(id),
  }))
  await storage.change(changes)
}

const inventoryIn = async (storage: Storage) =>
  (await storage.list()).filter(({ kind }) => kind !== 'formula')

const numberIn = (file: unknown) => (file as { n: number }).n

function isWhole(file: unknown): boolean {
  const { n, pieces } = file as { n: number; pieces: number[] }
  return pieces.length === PIECES && pieces.every((piece) => piece === n)
}

/** What is there after a death. */
async function look() {
  const storage = await openStorage()
  const [formulas, shed] = [await list(storage), await inventoryIn(storage)]
  await storage.close()
  return {
    numbers: Object.fromEntries(formulas.map(({ id, file }) => [id, numberIn(file)])),
    isWhole: [...formulas, ...shed].every(({ file }) => isWhole(file)),
    isTogether: new Set(shed.map(({ file }) => numberIn(file))).size <= 1 && shed.length !== 1,
  }
}

Object.assign(window, { writeOn, look })
