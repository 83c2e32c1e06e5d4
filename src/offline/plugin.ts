/**
 * Makes the built page work without a network: a service worker that holds every file of the build, and a
 * Content-Security-Policy that allows nothing but them.
 */
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Plugin, Rolldown } from 'vite'
import { POLICY, serverConfiguration } from './headers.ts'

const WORKER = fileURLToPath(new URL('./service-worker.js', import.meta.url))
const PUBLIC = fileURLToPath(new URL('../../public/', import.meta.url))

/** The README's picture is no part of the app. */
const NOT_HELD = /\.map$|^screenshot\.png$|^sw\.js$|^headers\.conf$/

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
        const configuration = serverConfiguration()
        this.emitFile({ type: 'asset', fileName: 'headers.conf', source: configuration })
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
  // What each file must hash to, so that a damaged one is known as such.
  const sums = Object.fromEntries(files.map((name) => [name, sumOf(contentOf(bundle, name))]))
  const worker = readFileSync(WORKER, 'utf8')
  // Any change of any file is a new version, and so is a change of the worker itself.
  const version = sumOf(JSON.stringify(sums) + worker).slice(0, 16)
  return worker
    .replace("'__VERSION__'", JSON.stringify(version))
    .replace("['__FILES__']", JSON.stringify(sums))
}

const sumOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex')

function contentOf(bundle: Rolldown.OutputBundle, name: string): string | Uint8Array {
  const part = bundle[name]
  if (!part) return readFileSync(`${PUBLIC}${name}`)
  return part.type === 'chunk' ? part.code : part.source
}
