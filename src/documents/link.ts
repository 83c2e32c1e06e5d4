/**
 * Formulas in the fragment of a link: version byte, how the rest is packed, CRC-32, then the formulas; all of it
 * in base64url (RFC 4648). It is compressed where that makes it shorter. Nothing of it ever reaches a server.
 */
import type { Leader } from '../engine/leader'
import type { Problem } from './problem'
import { crc32 } from './checksum'
import { PackedError, packJson, unpackJson } from './packed'
import { readFormula } from './read'
import { writeFormula } from './write'

const LINK_VERSION = 1
const PLAIN = 0
const DEFLATED = 1
const HEAD = 6
/** Longest code that is looked at, and most bytes that it may unfold to. */
export const LONGEST_CODE = 100_000
const MOST_BYTES = 1_000_000
const MOST_FORMULAS = 200

/** Raw deflate (RFC 1951), which the page and Node have and the pure folders have not. */
export interface Deflate {
  readonly deflate: (bytes: Uint8Array) => Promise<Uint8Array>
  /** Rejects what is no deflate stream and what unfolds to more than the limit. */
  readonly inflate: (bytes: Uint8Array, most: number) => Promise<Uint8Array>
}

export type LinkResult =
  | {
      readonly ok: true
      readonly leaders: readonly Leader[]
      readonly problems: readonly Problem[]
    }
  | { readonly ok: false; readonly problems: readonly Problem[] }

export function writeLink(leaders: readonly Leader[], deflate: Deflate): Promise<string> {
  return packCode(leaders.map(bare), deflate)
}

/** Any JSON value as the code of a link. */
export async function packCode(value: unknown, { deflate }: Deflate): Promise<string> {
  const packed = packJson(value)
  const deflated = await deflate(packed)
  const isShorter = deflated.length < packed.length
  const body = isShorter ? deflated : packed
  const crc = crc32([isShorter ? DEFLATED : PLAIN, ...body])
  const head = [LINK_VERSION, isShorter ? DEFLATED : PLAIN]
  const check = [crc >>> 24, (crc >>> 16) & 255, (crc >>> 8) & 255, crc & 255]
  return base64url(Uint8Array.from([...head, ...check, ...body]))
}

/** A link carries no format name, and no schema, which says where a file lies. */
function bare(leader: Leader): unknown {
  const { format: _f, $schema: _s, ...file } = writeFormula(leader)
  return file
}

/** What a label's code leaves out where the whole does not fit: notes, and where own materials come from. */
export function forLabel(leader: Leader): Leader {
  const { notes: _n, extra: _e, ...kept } = leader
  return { ...kept, segments: leader.segments.map(({ note: _, ...segment }) => segment) }
}

/** Reads a code; never throws, and tells what is wrong with what cannot be read. */
export async function readLink(code: string, deflate: Deflate): Promise<LinkResult> {
  const unpacked = await unpackCode(code, deflate)
  return 'problem' in unpacked
    ? { ok: false, problems: [unpacked.problem] }
    : readValues(unpacked.value)
}

/** The value in a code, or what is wrong with the code; never throws. */
export async function unpackCode(
  code: string,
  { inflate }: Deflate,
): Promise<{ readonly value: unknown } | { readonly problem: Problem }> {
  try {
    return { value: unpackJson(await bodyOf(code, inflate)) }
  } catch (error) {
    const found = error instanceof PackedError ? error.message : 'it is damaged'
    return { problem: { path: 'link', found, expected: WHOLE } }
  }
}

const WHOLE = 'the whole link, as it was sent: copy it again'

class LinkError extends PackedError {}

async function bodyOf(code: string, inflate: Deflate['inflate']): Promise<Uint8Array> {
  if (code === '') throw new LinkError('nothing')
  if (code.length > LONGEST_CODE)
    throw new LinkError(`${code.length} characters; at most ${LONGEST_CODE} are read`)
  const bytes = bytesOf(code)
  const [version = 0, packing = 0] = bytes
  if (version > LINK_VERSION) throw new LinkError('a newer Taperwright wrote it, or it is damaged')
  if (version !== LINK_VERSION || bytes.length < HEAD)
    throw new LinkError('it is damaged or cut off')
  const body = bytes.subarray(HEAD)
  const crc = ((bytes[2]! << 24) | (bytes[3]! << 16) | (bytes[4]! << 8) | bytes[5]!) >>> 0
  if (crc !== crc32([packing, ...body])) throw new LinkError('it is damaged or cut off')
  if (packing === PLAIN) return body
  if (packing !== DEFLATED) throw new LinkError('it is packed in an unknown way')
  return inflate(body, MOST_BYTES)
}

function readValues(values: unknown): LinkResult {
  if (!Array.isArray(values) || values.length === 0)
    return refuse('link', 'no formula in it', 'one formula or more')
  if (values.length > MOST_FORMULAS)
    return refuse('link', `${values.length} formulas`, `at most ${MOST_FORMULAS}`)
  const read = values.map((value: unknown) => readFormula(named(value)))
  const leaders = read.flatMap((result) => (result.ok ? [result.leader] : []))
  const problems = read.flatMap((result, i) =>
    result.ok ? [] : result.problems.map((problem) => placed(problem, i)),
  )
  return leaders.length > 0 ? { ok: true, leaders, problems } : { ok: false, problems }
}

function named(value: unknown): unknown {
  const isObject = typeof value === 'object' && value !== null && !Array.isArray(value)
  return isObject ? { ...value, format: 'taperwright-leader' } : value
}

const placed = (problem: Problem, i: number): Problem => ({
  ...problem,
  path: problem.path === 'file' ? `formulas[${i}]` : `formulas[${i}].${problem.path}`,
})

function refuse(path: string, found: string, expected: string): LinkResult {
  return { ok: false, problems: [{ path, found, expected }] }
}

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'

function base64url(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0)
    const letters = Math.min(4, bytes.length - i + 1)
    for (let k = 0; k < letters; k++) text += ALPHABET[(three >> (18 - 6 * k)) & 63]
  }
  return text
}

function bytesOf(code: string): Uint8Array {
  const bytes: number[] = []
  let [bits, held] = [0, 0]
  for (const letter of code) {
    const six = ALPHABET.indexOf(letter)
    if (six < 0) throw new LinkError(`it holds ${JSON.stringify(letter)}, which no link does`)
    bits = ((bits << 6) | six) & 0xffff
    held += 6
    if (held >= 8) bytes.push((bits >> (held -= 8)) & 255)
  }
  return Uint8Array.from(bytes)
}
