// npm test: every check and every suite, two at a time, going on after a failure.
// Ends with a table and, as its very last line, "N passed, N failed" over all of them.
import { spawn } from 'node:child_process'
import { closeSync, mkdirSync, openSync, readFileSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const results = `${root}node_modules/.cache/results`
const playwright = 'tests/browser/playwright.config.ts'

const readJson = (name) => JSON.parse(readFileSync(`${results}/${name}.json`, 'utf8'))

// Vitest counts a file that cannot even be loaded as a failed suite without tests.
const unitCounts = (name) => () => {
  const all = readJson(name)
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

/** The unit tests of some of the projects of `vite.config.ts`, on half of the cores. */
const unit = (name, projects) => ({
  name,
  args: [
    ['run', '--silent', 'unit', '--', ...projects.map((project) => `--project=${project}`)],
    [
      '--allowOnly=false',
      '--maxWorkers=50%',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${results}/${projects[0]}.json`,
    ],
  ],
  counts: unitCounts(projects[0]),
})

// On two cores each lane has one. A lane goes through its suites in order; what the page's lane
// does after the build needs it, and is not run on what an older build has left. What needs no build
// goes to the lane that is done first, the longest before the others.
const code = [{ name: 'format', args: script('format:check') }, unit('engine tests', ['pure'])]

const page = [
  { name: 'build', args: script('build') },
  { name: 'size', args: script('size'), needs: 'build' },
  {
    name: 'browser tests',
    args: [
      ['exec', '--no', '--', 'playwright', 'test', `--config=${playwright}`],
      ['--forbid-only', '--reporter=list,json'],
    ],
    env: { PLAYWRIGHT_JSON_OUTPUT_FILE: `${results}/browser.json` },
    needs: 'build',
    counts: browserCounts,
  },
]

const either = [
  unit('other tests', ['node', 'page']),
  { name: 'lint', args: script('lint') },
  { name: 'types', args: script('types') },
  { name: 'dead code', args: script('dead') },
]

// Started by npm, ask for the very same npm; by another package manager, for the one on the path.
const npmCli = () => [process.env.npm_execpath].find((path) => path?.endsWith('npm-cli.js'))

/** Whether it ended well. What it says goes to a file: suites of two lanes would talk at once. */
function npm(args, env, said) {
  const path = npmCli()
  const [command, first] = path ? [process.execPath, [path]] : ['npm', []]
  const file = openSync(said, 'w')
  const child = spawn(command, [...first, ...args], {
    cwd: root,
    stdio: ['ignore', file, file],
    env: { ...process.env, ...env },
    shell: !path && process.platform === 'win32',
  })
  closeSync(file)
  return new Promise((resolve) => {
    child.once('error', () => resolve(false))
    child.once('close', (status) => resolve(status === 0))
  })
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

const title = (text) => `\n── ${text} ${'─'.repeat(Math.max(0, 60 - text.length))}\n`
const hasFailed = ({ failed }) => failed > 0

async function run({ name, args, env, counts }) {
  const said = `${results}/${name.replaceAll(' ', '-')}.log`
  const start = Date.now()
  const ok = await npm(args.flat(), env, said)
  const found = { name, seconds: (Date.now() - start) / 1000, ...judge(ok, counts) }
  process.stdout.write(
    hasFailed(found) ? `${title(name)}${readFileSync(said, 'utf8')}\n` : `${row(found)}\n`,
  )
  return found
}

/** The suites one after another, each that needs a failed one counted as failed; then what either lane may do. */
async function runLane(suites) {
  const done = []
  for (const suite of suites) {
    const missing = done.find((each) => each.name === suite.needs && hasFailed(each))
    const note = `not run: ${suite.needs} failed`
    done.push(
      missing
        ? { name: suite.name, seconds: 0, passed: 0, failed: 1, skipped: 0, note }
        : await run(suite),
    )
  }
  for (let suite = either.shift(); suite; suite = either.shift()) done.push(await run(suite))
  return done
}

function row({ name, passed, failed, skipped, seconds, note }) {
  const cells = [passed, failed, skipped].map((count) => String(count).padStart(9))
  return `${name.padEnd(14)}${cells.join('')}${seconds.toFixed(1).padStart(9)} s  ${note}`.trimEnd()
}

const head = `${'suite'.padEnd(14)}   passed   failed  skipped     time\n`

rmSync(results, { recursive: true, force: true })
mkdirSync(results, { recursive: true })
process.stdout.write(head)
const rows = (await Promise.all([code, page].map(runLane))).flat()
const sum = (key) => rows.reduce((total, entry) => total + entry[key], 0)

process.stdout.write(`${title('all suites')}${head}${rows.map(row).join('\n')}\n\n`)
process.exitCode = sum('failed') > 0 ? 1 : 0
process.stdout.write(`${sum('passed')} passed, ${sum('failed')} failed\n`)
