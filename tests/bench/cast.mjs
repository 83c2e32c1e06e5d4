/**
 * What a cast costs, each figure beside its target; exits with 1 where one is missed.
 *
 * One standard flight in JavaScript and in C (cast.c), turn about in one run, so that what else the machine does
 * falls on both; they must agree in extension to 1e-3. The same flight in a worker of Chromium. Estimate, least
 * speed, and deliveries on two threads by the page's own client and shell. Cost against nodes and time flown, in
 * node-steps, which do not depend on the machine. That thousands of flights leave the heap as it was. What there is
 * no compiler or no browser for is said and left out.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { Buffer } from 'node:buffer'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { Worker } from 'node:worker_threads'
import { chromium } from '@playwright/test'
import { build } from 'vite'
import { launchOptions } from '../support/browser.mjs'

const ROUNDS = 12
const FLIGHTS = 12
const WARM_UP = 60
const MANY_FLIGHTS = 10_000
const SHORT_FLIGHT_S = 0.1
const ROOM_SAMPLES = 24
/** The standard flight on two quiet cores. */
const QUIET_FLIGHT_MS = 2.76
const inQuietFlights = (ms) => ms / QUIET_FLIGHT_MS

const at = (path) => fileURLToPath(new URL(path, import.meta.url))
const ascending = (a, b) => a - b
const median = (values) => [...values].sort(ascending)[values.length >> 1]

/** A figure and the most it may be; `aim` is what would be better still. */
function figure(what, value, { most, aim, unit = '', digits = 1 } = {}) {
  const shown = (v) => `${v.toFixed(digits)}${unit && ` ${unit}`}`
  const isMet = most === undefined || value <= most
  const target =
    most === undefined
      ? ''
      : `at most ${shown(most)}${aim === undefined ? '' : `, aim ${shown(aim)}`}`
  console.log(
    `${what.padEnd(58)}${shown(value).padStart(12)}   ${target.padEnd(28)}${most === undefined ? '' : isMet ? 'met' : 'MISSED'}`,
  )
  if (!isMet) process.exitCode = 1
}

function fail(message) {
  console.error(message)
  process.exitCode = 1
}

const folder = mkdtempSync(join(tmpdir(), 'taperwright-cast-'))
try {
  const engine = await bundled(folder)
  const input = engine.standardCase('coarse')
  const flight_ms = compare(engine, input)
  await inBrowser(input)
  quickAnswers(engine)
  await timeDeliveries(engine, flight_ms)
  growth(engine, input)
  checkHeap(engine, input)
} finally {
  rmSync(folder, { recursive: true, force: true })
}

/** Engine and worker as the page gets them: plain JavaScript, a file each. */
async function bundled(outDir) {
  for (const [name, entry] of [
    ['cast', 'cast-entry.ts'],
    ['shell', '../../src/worker/cast.worker.ts'],
  ]) {
    await build({
      configFile: false,
      root: at('../..'),
      logLevel: 'error',
      publicDir: false,
      build: {
        lib: { entry: at(entry), formats: ['es'], fileName: () => `${name}.mjs` },
        outDir,
        emptyOutDir: false,
        target: 'node20',
        minify: false,
      },
    })
  }
  return import(pathToFileURL(join(outDir, 'cast.mjs')).href)
}

/** The same work as in C: the chain stands, the start is copied. */
function flightOf({ buildChain, startState, flyFrom }, input) {
  const chain = buildChain(input)
  const { nodes } = startState(chain, input)
  return () =>
    flyFrom(chain, { time_s: 0, step_s: 0, nodes: nodes.slice() }, input, {
      stopWhenStraight: true,
    })
}

function compare(engine, standard) {
  // In C the fly's drag area stays as it is.
  const input = { ...standard, fly: { ...standard.fly, dragExponent: 0 } }
  const fly = flightOf(engine, input)
  const whole = () => engine.runCast(input, { stopWhenStraight: true })
  const program = compiled()
  const file = join(folder, 'cast.bin')
  writeFileSync(file, Buffer.from(described(engine, input).buffer))
  for (let i = 0; i < WARM_UP; i++) whole()
  for (let i = 0; i < WARM_UP; i++) fly()
  const [js, wholes, c] = [[], [], []]
  let inC
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < FLIGHTS; i++) js.push(timed(fly))
    for (let i = 0; i < FLIGHTS; i++) wholes.push(spent(whole))
    if (!program) continue
    const [steps, extension, , least] = execFileSync(program, [file, String(FLIGHTS)])
      .toString()
      .split(' ')
      .map(Number)
    c.push(least)
    inC = { steps, extension }
  }
  const flight = fly()
  const nodeSteps = flight.steps * flight.nodes
  const least = Math.min(...js)
  figure('one flight, coarse, in Node: median', median(wholes), {
    most: 6,
    aim: 3,
    unit: 'ms',
    digits: 2,
  })
  figure('  node-steps', nodeSteps, { most: 60_000, digits: 0 })
  figure('  a node and step, at best', (least * 1e6) / nodeSteps, { unit: 'ns' })
  figure('  flights a second on one core', 1e3 / median(wholes), { digits: 0 })
  if (!inC) return median(wholes)
  figure('  the same in C', 1e3 / median(c), { digits: 0 })
  figure('  in C, at best', Math.min(...c), { unit: 'ms', digits: 2 })
  figure('  JavaScript over C, each at best', least / Math.min(...c), { most: 1.3, digits: 2 })
  if (Math.abs(flight.extension - inC.extension) > 1e-3)
    fail('C and JavaScript disagree in extension')
  return median(wholes)
}

function timed(run) {
  const from = performance.now()
  run()
  return performance.now() - from
}

/** Processor time (ms): what else the machine does at the moment is not the cast's. */
function spent(run) {
  const from = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(from)
  return (user + system) / 1e3
}

function compiled() {
  const program = join(folder, 'cast')
  const source = fileURLToPath(new URL('cast.c', import.meta.url))
  for (const compiler of ['cc', 'gcc', 'clang']) {
    const { error, status } = spawnSync(compiler, ['-O3', '-o', program, source, '-lm'], {
      stdio: 'inherit',
    })
    if (error) continue
    if (status === 0) return program
    fail(`${compiler} does not compile cast.c`)
    return null
  }
  console.log('cast in C: skipped, there is no C compiler (cc, gcc or clang) here')
  return null
}

/** The same bundle in a worker of the browser that the page is tested in. */
async function inBrowser(input) {
  let browser
  try {
    browser = await chromium.launch(await launchOptions())
  } catch (error) {
    console.log(
      `one flight in Chromium: skipped, it does not start (${error.message.split('\n')[0]})`,
    )
    return
  }
  try {
    const page = await browser.newPage()
    // A page of some origin: a blob of none makes no worker of modules.
    await page.route('**/*', (route) => route.fulfill({ contentType: 'text/html', body: '' }))
    await page.goto('http://localhost/')
    const source = `${readFileSync(join(folder, 'cast.mjs'), 'utf8')}
      const input = ${JSON.stringify(input)}
      const times = []
      for (let i = 0; i < 200; i++) {
        const from = performance.now()
        runCast(input, { stopWhenStraight: true })
        if (i >= ${WARM_UP}) times.push(performance.now() - from)
      }
      postMessage(times)`
    const times = await page.evaluate(workedOn, source)
    figure('one flight, coarse, in a worker of Chromium: median', median(times), {
      most: 6,
      aim: 3,
      unit: 'ms',
      digits: 2,
    })
  } finally {
    await browser.close()
  }
}

/* global Blob */
function workedOn(source) {
  const url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }))
  return new Promise((resolve, reject) => {
    const worker = new globalThis.Worker(url, { type: 'module' })
    worker.addEventListener('message', ({ data }) => resolve(data))
    worker.addEventListener('error', ({ message }) => reject(new Error(message)))
  })
}

function quickAnswers({
  estimateTurnover,
  profileOf,
  standardLeader,
  leastLineSpeed,
  shippedCases,
}) {
  const profile = profileOf(standardLeader)
  const BATCH = 200
  const batch = () => {
    for (let i = 0; i < BATCH; i++) estimateTurnover(standardLeader, profile)
  }
  for (let i = 0; i < 20; i++) batch()
  const estimates = Array.from({ length: 40 }, () => (spent(batch) * 1e3) / BATCH)
  figure('energy model, a leader: median', median(estimates), { most: 20, unit: 'us' })
  const search = (one) => () => leastLineSpeed(one, { tolerance_m_s: 0.25 })
  const [standard] = shippedCases('coarse').filter(
    ({ fly }) => fly.mass_kg > 25e-6 && fly.mass_kg < 32e-6,
  )
  const each = shippedCases('coarse').map((one) =>
    median([1, 2, 3, 4, 5].map(() => spent(search(one)))),
  )
  const own = Array.from({ length: 25 }, () => spent(search(standard)))
  const target = { most: 40, aim: 25, unit: 'ms' }
  figure('least line speed to 0.25 m/s, standard leader: median', median(own), target)
  figure('  of the shipped leaders, ordinary caster: median', median(each), target)
  figure('  the slowest of them (turned over by no speed)', Math.max(...each), { unit: 'ms' })
}

/** A thread that takes itself for a page's worker. */
function hire() {
  const shell = pathToFileURL(join(folder, 'shell.mjs')).href
  const thread = new Worker(
    `const { parentPort } = require('node:worker_threads')
     globalThis.self = {
       postMessage: (message) => parentPort.postMessage(message),
       addEventListener: (_, listener) => parentPort.on('message', (data) => listener({ data })),
     }
     import(${JSON.stringify(shell)})`,
    { eval: true },
  )
  return {
    postMessage: (message) => thread.postMessage(message),
    terminate: () => void thread.terminate(),
    addEventListener: (type, listener) =>
      thread.on(type, (data) =>
        listener(type === 'message' ? { data } : { message: String(data) }),
      ),
  }
}

/** What is said of every shipped leader, its map and its band, as the page asks for them. */
async function timeDeliveries({ CastClient, work, shippedDeliveries }, flight_ms) {
  const pool = new CastClient(hire, 2)
  const asked = shippedDeliveries()
  const ask = async (question) => {
    const from = performance.now()
    const value = await work(pool, question, JSON.stringify(question), () => {})
    return { value, ms: performance.now() - from }
  }
  try {
    const deliver = (one) => ask({ ...one, kind: 'delivery' })
    for (const one of asked.slice(0, 3)) await deliver(one)
    const times = []
    for (const one of asked) times.push((await deliver(one)).ms)
    const target = { unit: 'ms', digits: 0 }
    figure('delivery of a shipped leader, two threads: median', median(times), {
      most: 500,
      ...target,
    })
    figure('  the slowest of them', Math.max(...times), { most: 1000, ...target })
    // The same against the standard flight of this run, which took 2.76 ms on two quiet cores.
    const inFlights = (ms) => ms / flight_ms
    figure('  in standard flights: median', inFlights(median(times)), {
      most: inQuietFlights(500),
      digits: 0,
    })
    figure('  in standard flights: the slowest', inFlights(Math.max(...times)), {
      most: inQuietFlights(1000),
      digits: 0,
    })
    const maps = []
    for (const one of asked) maps.push((await ask({ ...one, kind: 'map' })).ms / 1e3)
    const seconds = { unit: 's', digits: 2 }
    figure('map of 132 casts, two threads: median', median(maps), { most: 1.5, ...seconds })
    const bands = []
    for (const one of asked) {
      const { value } = await deliver(one)
      const known = { lines: value.lines, room: value.best.room, launchAngle_deg: 0 }
      known.launchAngle_deg = value.best.launchAngle_deg
      bands.push((await ask({ ...one, kind: 'room-band', known, samples: ROOM_SAMPLES })).ms / 1e3)
    }
    figure(
      'delivery, until a worker that was stopped takes other work',
      await stopTimes(pool, work, { ...asked[0], kind: 'delivery' }),
      { most: 50, unit: 'ms' },
    )
    figure(`band of a room, ${ROOM_SAMPLES} draws, two threads: median`, median(bands), {
      most: 6,
      ...seconds,
    })
  } finally {
    pool.close()
  }
}

/** The worst of a few: both workers must have answered. */
async function stopTimes(pool, work, question) {
  let worst = 0
  for (let i = 0; i < 8; i++) {
    const running = work(pool, question, 'stopped', () => {}).catch(() => {})
    await pause(120 + 17 * i)
    const from = performance.now()
    pool.cancel('stopped')
    const nothing = { kind: 'extensions', inputs: [] }
    await Promise.all([pool.run(nothing), pool.run(nothing)])
    worst = Math.max(worst, performance.now() - from)
    await running
  }
  return worst
}

/** Most over least of node-steps a second flown, and of steps as nodes are added that change nothing. */
function growth({ runCast }, input) {
  const spread = (values) => Math.max(...values) / Math.min(...values)
  const flown = [0.2, 0.4, 0.6, 0.8].map((endTime_s) => {
    const { steps, nodes } = runCast({ ...input, endTime_s })
    return (steps * nodes) / endTime_s
  })
  figure('node-steps a second flown, 0.2 to 0.8 s: most over least', spread(flown), {
    most: 1.4,
    digits: 2,
  })
  const [first, ...others] = input.line
  const runs = [0, 10, 20, 40].map((rest_m) => {
    const longer = {
      ...input,
      line: [{ ...first, length_m: first.length_m + rest_m }, ...others],
      cast: { ...input.cast, loopStart_m: input.cast.loopStart_m + rest_m },
      endTime_s: 0.5,
    }
    const fly = () => runCast(longer)
    for (let i = 0; i < 10; i++) fly()
    const ms = Math.min(...Array.from({ length: 15 }, () => spent(fly)))
    const { steps, nodes } = fly()
    return { steps, perNode: ms / nodes }
  })
  figure(
    'steps with 0 to 40 m of resting line more: most over least',
    spread(runs.map((r) => r.steps)),
    { most: 1.05, digits: 2 },
  )
  figure('time a node, the same: most over least', spread(runs.map((r) => r.perNode)), {
    most: 1.5,
    digits: 2,
  })
}

/** Everything a flight in C needs, in the order in which cast.c reads it. */
function described({ buildChain, startState, makeStepper, kernel }, input) {
  const chain = buildChain(input)
  const state = startState(chain, input)
  const { crossTable, axialTable } = chain
  const limits = makeStepper(chain, state, input)
  const figures = [
    chain.links,
    chain.butt,
    chain.leaderLength_m,
    input.gravity_m_s2,
    input.bendingDamping_s,
    input.air.density_kg_m3,
    input.air.kinematicViscosity_m2_s,
    input.fly.dragArea_m2,
    input.endTime_s,
    input.wind_m_s,
    limits.longest_s,
    limits.bendingLimit_s,
    limits.tensionShare,
    limits.largestTurn,
    crossTable.length,
  ]
  const columns = [
    ...['length_m', 'inverseLength', 'waveFactor', 'diameter_m', 'inverseMass', 'mass_kg'],
    ...['linkInertia', 'hinge', 'naturalAngle'],
  ].map((name) => chain[name])
  const start = ['X', 'Y', 'VX', 'VY', 'COS', 'SIN'].map((field) =>
    Float64Array.from(
      { length: chain.links + 1 },
      (_, k) => state.nodes[kernel.recordOf(k) + kernel[field]],
    ),
  )
  const padded = [...columns, ...start].map((column) =>
    Float64Array.from({ length: chain.links + 2 }, (_, k) => column[k] ?? 0),
  )
  return Float64Array.from(
    [figures, ...padded, crossTable, axialTable].flatMap((part) => [...part]),
  )
}

/** Flights come and go; what they use must go with them. Short ones: all that is allocated is before a step. */
function checkHeap(engine, standard) {
  const input = { ...standard, endTime_s: SHORT_FLIGHT_S }
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc')
  const fly = () => engine.runCast(input, { stopWhenStraight: true })
  const held = () => {
    // Twice: buffers are freed beside the first.
    collect()
    collect()
    const { heapUsed, external } = process.memoryUsage()
    return heapUsed + external
  }
  for (let i = 0; i < 2000; i++) fly()
  const before = held()
  for (let i = 0; i < MANY_FLIGHTS; i++) fly()
  figure(`heap after ${MANY_FLIGHTS} flights, more than before`, (held() - before) / 1024, {
    most: 1000,
    unit: 'KiB',
    digits: 0,
  })
}
