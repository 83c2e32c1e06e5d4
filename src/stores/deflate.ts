import type { Deflate } from '../documents/link'

/** Raw deflate of the browser; Node has the same streams. */
export const pageDeflate: Deflate = {
  deflate: (bytes) => through(bytes, new CompressionStream('deflate-raw'), Infinity),
  inflate: (bytes, most) => through(bytes, new DecompressionStream('deflate-raw'), most),
}

async function through(
  bytes: Uint8Array,
  stream: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array> {
  const writer = stream.writable.getWriter()
  // What goes wrong shows at the reading end; unheard it would be an error of the whole page.
  const writing = writer
    .write(bytes as BufferSource)
    .then(() => writer.close())
    .catch(() => undefined)
  const reader = (stream.readable as ReadableStream<Uint8Array>).getReader()
  const chunks: Uint8Array[] = []
  let size = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) break
    size += value.length
    if (size > most) {
      await reader.cancel().catch(() => undefined)
      throw new RangeError(`it unfolds to more than ${most} bytes`)
    }
    chunks.push(value)
  }
  await writing
  return joined(chunks, size)
}

function joined(chunks: readonly Uint8Array[], size: number): Uint8Array {
  const all = new Uint8Array(size)
  let at = 0
  for (const chunk of chunks) {
    all.set(chunk, at)
    at += chunk.length
  }
  return all
}
