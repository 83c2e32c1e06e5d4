const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1
  return c >>> 0
})

const fed = (crc: number, byte: number) => TABLE[(crc ^ byte) & 255]! ^ (crc >>> 8)
const ended = (crc: number) => (crc ^ 0xffffffff) >>> 0

/** CRC-32 of ISO 3309 and ITU-T V.42, as zip and PNG use it; for damage, not for malice. */
export function crc32(bytes: Iterable<number>): number {
  let crc = 0xffffffff
  for (const byte of bytes) crc = fed(crc, byte)
  return ended(crc)
}

/** CRC-32 of a text's UTF-16 code units, low byte first: a plain loop, for texts of 50 MB. */
export function crc32OfText(text: string): number {
  let crc = 0xffffffff
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i)
    crc = fed(fed(crc, unit & 255), unit >> 8)
  }
  return ended(crc)
}
