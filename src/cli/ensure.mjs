// Makes a bare clone ready to run: right Node, packages as locked.
// Needs nothing but Node itself, because it runs before anything is installed,
// and speaks on stderr only, because what follows may print data on stdout.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const NEEDED = [20, 19]
const at = (path) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const lockFile = at('package-lock.json')
const installedFile = at('node_modules/.package-lock.json')
const stampFile = at('node_modules/.taperwright-installed')

function fail(message) {
  process.stderr.write(`${message}\n`)
  process.exit(1)
}

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number)
  const tooOld = major < NEEDED[0] || (major === NEEDED[0] && minor < NEEDED[1])
  if (tooOld) {
    fail(
      `Taperwright needs Node ${NEEDED.join('.')} or newer; this is ${process.versions.node}. Install a newer Node from https://nodejs.org and run the command again.`,
    )
  }
}

const lockHash = () => createHash('sha256').update(readFileSync(lockFile)).digest('hex')

const stampIs = (hash) => existsSync(stampFile) && readFileSync(stampFile, 'utf8').trim() === hash

// Somebody may have run "npm ci" by hand: npm's own record then says what is there,
// and installing once more would only cost time.
function npmInstalledAll() {
  if (!existsSync(installedFile)) return false
  const wanted = JSON.parse(readFileSync(lockFile, 'utf8')).packages
  const present = JSON.parse(readFileSync(installedFile, 'utf8')).packages
  const same = Object.keys(present).every((key) => wanted[key]?.version === present[key].version)
  const complete = Object.entries(wanted).every(
    ([key, entry]) => key === '' || entry.optional || key in present,
  )
  return same && complete
}

// Started by npm, ask for the very same npm; by another package manager, for the one on the path.
const npmCli = () => [process.env.npm_execpath].find((path) => path?.endsWith('npm-cli.js'))

function install() {
  process.stderr.write('Installing packages as locked (npm ci) ...\n')
  const npm = npmCli()
  const [command, args] = npm ? [process.execPath, [npm]] : ['npm', []]
  const done = spawnSync(command, [...args, 'ci', '--no-audit', '--no-fund'], {
    cwd: at(''),
    stdio: ['ignore', 2, 2],
    // Only Windows needs a shell, to find npm.cmd.
    shell: !npm && process.platform === 'win32',
  })
  if (done.status !== 0) fail('"npm ci" failed; its messages are above. Nothing else was run.')
}

checkNode()
const hash = lockHash()
if (!stampIs(hash)) {
  if (!npmInstalledAll()) install()
  writeFileSync(stampFile, `${hash}\n`)
}
