// What a first visit costs, compressed. The files are read from the built page itself,
// so that a part loaded later does not count and a new early one cannot hide.
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const dist = fileURLToPath(new URL('../../dist/', import.meta.url))
const page = `${dist}index.html`
if (!existsSync(page)) throw new Error('Nothing is built yet: run "npm run build" first.')

const loaded = [...readFileSync(page, 'utf8').matchAll(/(?:src|href)="\.\/([^"]+)"/g)].map(
  (found) => `../../dist/${found[1]}`,
)
const scripts = loaded.filter((file) => file.endsWith('.js'))
const styles = loaded.filter((file) => file.endsWith('.css'))

export default [
  { name: 'JavaScript loaded first', path: scripts, limit: '100 kB', gzip: true },
  { name: 'CSS loaded first', path: styles, limit: '12 kB', gzip: true },
].filter((check) => check.path.length > 0)
