/**
 * Makes the built page work without a network: a service worker that holds every file of the build, and a
 * Content-Security-Policy that allows nothing but them.
 */
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Plugin, Rolldown } from 'vite'

const WORKER = fileURLToPath(new URL('./service-worker.js', import.meta.url))
const PUBLIC = fileURLToPath(new URL('../../public/', import.meta.url))

/** No script, style or connection from elsewhere, and none written into the page. Pictures may be made here. */
const POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/** The README's picture is no part of the app. */
const NOT_HELD = /\.map$|^screenshot\.png$|^sw\.js$/

export function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
          injectTo: 'head-prepend',
        },
      ],
    },
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const source = serviceWorker(bundle)
        this.emitFile({ type: 'asset', fileName: 'sw.js', source })
      },
    },
  }
}

function serviceWorker(bundle: Rolldown.OutputBundle): string {
  const publicFiles = readdirSync(PUBLIC, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => /\.\w+$/.test(name))
  const files = [...new Set([...Object.keys(bundle), ...publicFiles])]
    .filter((name) => !NOT_HELD.test(name))
    .sort()
  const hash = createHash('sha256')
  for (const name of files) hash.update(name).update(contentOf(bundle, name))
  const worker = readFileSync(WORKER, 'utf8')
  // Any change of any file is a new version, and so is a change of the worker itself.
  const version = hash.update(worker).digest('hex').slice(0, 16)
  return worker
    .replace("'__VERSION__'", JSON.stringify(version))
    .replace("['__FILES__']", JSON.stringify(files))
}

function contentOf(bundle: Rolldown.OutputBundle, name: string): string | Uint8Array {
  const part = bundle[name]
  if (!part) return readFileSync(`${PUBLIC}${name}`)
  return part.type === 'chunk' ? part.code : part.source
}
