import { crc32OfText } from './checksum'

export function revisionOf(file: unknown): string {
  return crc32OfText(JSON.stringify(file) ?? '')
    .toString(16)
    .padStart(8, '0')
}
