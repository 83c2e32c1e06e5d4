/** The licences of everything that is in the build, ours and those of the packages, as one file beside the page. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Plugin, Rolldown } from 'vite'

const ROOT = fileURLToPath(new URL('../../', import.meta.url))
/** A folder of a package, the innermost where one lies in another. */
const PACKAGE = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/
const LICENCE = /^(licen[cs]e|copying|notice)/i

export function notices(): Plugin {
  return {
    name: 'notices',
    apply: 'build',
    generateBundle(_, bundle) {
      this.emitFile({ type: 'asset', fileName: 'notices.txt', source: noticesOf(bundle) })
    },
  }
}

function noticesOf(bundle: Rolldown.OutputBundle): string {
  const modules = Object.values(bundle).flatMap((part) =>
    part.type === 'chunk' ? part.moduleIds : [],
  )
  const folders = [...new Set(modules.flatMap((id) => PACKAGE.exec(id)?.[0] ?? []))].sort()
  return [readFileSync(join(ROOT, 'LICENSE'), 'utf8'), ...folders.map(noticeOf)].join(
    `\n${'-'.repeat(72)}\n\n`,
  )
}

/** Name, version and licence of a package; one without a licence stops the build. */
function noticeOf(folder: string): string {
  const { name, version, license } = JSON.parse(
    readFileSync(join(folder, 'package.json'), 'utf8'),
  ) as Readonly<Record<'name' | 'version' | 'license', string | undefined>>
  const texts = existsSync(folder) ? readdirSync(folder).filter((file) => LICENCE.test(file)) : []
  if (!license && texts.length === 0)
    throw new Error(`${folder} is in the build without a licence.`)
  const words = texts.map((file) => readFileSync(join(folder, file), 'utf8').trim())
  return [`${name} ${version} (${license})`, ...words].join('\n\n') + '\n'
}
