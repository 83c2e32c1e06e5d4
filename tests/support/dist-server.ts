/** Serves the built page as a plain host would, and can be killed, or serve another build. */
import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname } from 'node:path'
import { fileURLToPath } from 'node:url'

const DIST = fileURLToPath(new URL('../../dist/', import.meta.url))
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
}

export interface DistServer {
  readonly url: string
  /** Changes a file as it is served: the next build. */
  change(name: string, edit: (text: string) => string): void
  kill(): Promise<void>
}

export async function serveDist(): Promise<DistServer> {
  const edits = new Map<string, (text: string) => string>()
  const server = createServer((request, response) => {
    const name = new URL(request.url ?? '/', 'http://x').pathname.slice(1) || 'index.html'
    readFile(DIST + name).then(
      (content) => {
        const edit = edits.get(name)
        response.writeHead(200, { 'content-type': TYPES[extname(name)] ?? 'text/plain' })
        response.end(edit ? edit(content.toString('utf8')) : content)
      },
      () => response.writeHead(404).end(),
    )
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${port}/`,
    change: (name, edit) => void edits.set(name, edit),
    kill: () =>
      new Promise((resolve) => {
        server.closeAllConnections()
        server.close(() => resolve())
      }),
  }
}
