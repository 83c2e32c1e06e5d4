// npm test: every check and every suite in order, going on after a failure.
// Ends with a table and, as its very last line, "N passed, N failed" over all of them.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const results = `${root}node_modules/.cache/results`
const playwright = 'tests/browser/playwright.config.ts'

const readJson = (name) => JSON.parse(readFileSync(`${results}/${name}.json`, 'utf8'))

// Vitest counts a file that cannot even be loaded as a failed suite without tests.
function unitCounts() {
  const all = readJson('unit')
  const unloaded = all.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.length === 0,
  ).length
  return {
    passed: all.numPassedTests,
    failed: all.numFailedTests + unloaded,
    skipped: all.numPendingTests + all.numTodoTests,
  }
}

function browserCounts() {
  const { stats, errors } = readJson('browser')
  return {
    passed: stats.expected + stats.flaky,
    failed: stats.unexpected + errors.length,
    skipped: stats.skipped,
  }
}

const script = (name) => [['run', '--silent', name]]

const suites = [
  { name: 'format', args: script('format:check') },
  { name: 'lint', args: script('lint') },
  { name: 'types', args: script('types') },
  { name: 'dead code', args: script('dead') },
  {
    name: 'unit tests',
    args: [
      ['run', '--silent', 'unit', '--'],
      [
        '--allowOnly=false',
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${results}/unit.json`,
      ],
    ],
    counts: unitCounts,
  },
  { name: 'build', args: script('build') },
  { name: 'size', args: script('size') },
  {
    name: 'browser tests',
    args: [
      ['exec', '--no', '--', 'playwright', 'test', `--config=${playwright}`],
      ['--forbid-only', '--reporter=list,json'],
    ],
    env: { PLAYWRIGHT_JSON_OUTPUT_FILE: `${results}/browser.json` },
    counts: browserCounts,
  },
]

// Started by npm, ask for the very same npm; by another package manager, for the one on the path.
const npmCli = () => [process.env.npm_execpath].find((path) => path?.endsWith('npm-cli.js'))

function npm(args, env) {
  const path = npmCli()
  const [command, first] = path ? [process.execPath, [path]] : ['npm', []]
  const done = spawnSync(command, [...first, ...args], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    shell: !path && process.platform === 'win32',
  })
  return done.status === 0
}

// A suite that ended badly has failed even if no single test says so,
// and one that ran no test at all has shown nothing.
function judge(ok, counts) {
  const one = { passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0, note: '' }
  if (!counts) return one
  try {
    const found = { note: '', ...counts() }
    if (found.passed + found.failed === 0) return { ...found, failed: 1, note: 'ran no test' }
    if (!ok && found.failed === 0) return { ...found, failed: 1, note: 'ended with an error' }
    return found
  } catch {
    return { ...one, passed: 0, failed: 1, note: 'left no result' }
  }
}

function run({ name, args, env, counts }) {
  process.stdout.write(`\n── ${name} ${'─'.repeat(60 - name.length)}\n`)
  const start = Date.now()
  const ok = npm(args.flat(), env)
  return { name, seconds: (Date.now() - start) / 1000, ...judge(ok, counts) }
}

function row({ name, passed, failed, skipped, seconds, note }) {
  const cells = [passed, failed, skipped].map((count) => String(count).padStart(9))
  return `${name.padEnd(14)}${cells.join('')}${seconds.toFixed(1).padStart(9)} s  ${note}`.trimEnd()
}

rmSync(results, { recursive: true, force: true })
mkdirSync(results, { recursive: true })
const rows = suites.map(run)
const sum = (key) => rows.reduce((total, entry) => total + entry[key], 0)

process.stdout.write(`\n${'suite'.padEnd(14)}   passed   failed  skipped     time\n`)
process.stdout.write(`${rows.map(row).join('\n')}\n\n`)
process.exitCode = sum('failed') > 0 ? 1 : 0
process.stdout.write(`${sum('passed')} passed, ${sum('failed')} failed\n`)
