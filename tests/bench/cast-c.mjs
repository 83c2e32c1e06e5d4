/**
 * One standard cast in JavaScript and in C (cast.c), turn about in one run, so that what else the machine does
 * falls on both. They must agree in extension to 1e-3; the ratio of times is what JavaScript costs. Then, that
 * thousands of flights leave the heap as it was. Needs a C compiler; says so and stops where there is none.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { Buffer } from 'node:buffer'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { build } from 'vite'

const ROUNDS = 12
const FLIGHTS = 12
const TARGET_RATIO = 1.3
const MANY_FLIGHTS = 10_000
const SHORT_FLIGHT_S = 0.1
const MOST_GROWTH_BYTES = 1e6

const ascending = (a, b) => a - b
const ms = (t) => `${t.toFixed(2)} ms`

const folder = mkdtempSync(join(tmpdir(), 'taperwright-cast-'))
try {
  const engine = await bundled(folder)
  const input = engine.standardCase('coarse')
  compare(engine, input)
  checkHeap(engine, input)
} finally {
  rmSync(folder, { recursive: true, force: true })
}

/** The engine as the page gets it: plain JavaScript in one file. */
async function bundled(outDir) {
  await build({
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    build: {
      lib: {
        entry: fileURLToPath(new URL('cast-entry.ts', import.meta.url)),
        formats: ['es'],
        fileName: () => 'cast.mjs',
      },
      outDir,
      target: 'node20',
      minify: false,
    },
  })
  return import(pathToFileURL(join(outDir, 'cast.mjs')).href)
}

function compare(engine, input) {
  const program = compiled()
  if (!program) return
  const file = join(folder, 'cast.bin')
  writeFileSync(file, Buffer.from(described(engine, input).buffer))
  const fly = () => engine.runCast(input, { stopWhenStraight: true })
  for (let i = 0; i < 60; i++) fly()
  const js = []
  const c = []
  let inC
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < FLIGHTS; i++) js.push(timed(fly))
    const [steps, extension, , least, median] = execFileSync(program, [file, String(FLIGHTS)])
      .toString()
      .split(' ')
      .map(Number)
    c.push({ least, median })
    inC = { steps, extension }
  }
  report(fly(), inC, js.sort(ascending), c)
}

function report(flight, inC, js, c) {
  const least = [js[0], Math.min(...c.map((r) => r.least))]
  const middle = [js[js.length >> 1], c.map((r) => r.median).sort(ascending)[c.length >> 1]]
  const perNodeStep = ((least[0] * 1e6) / (flight.steps * flight.nodes)).toFixed(1)
  const ratio = least[0] / least[1]
  console.log(
    `cast in JavaScript and C, one standard flight (coarse): ` +
      `${flight.steps} steps of ${flight.nodes} nodes, ${perNodeStep} ns a node and step\n` +
      `  least   ${ms(least[0])} and ${ms(least[1])}, ratio ${ratio.toFixed(2)} (target ${TARGET_RATIO} or less)\n` +
      `  median  ${ms(middle[0])} and ${ms(middle[1])}, ratio ${(middle[0] / middle[1]).toFixed(2)}\n` +
      `  extension ${flight.extension.toFixed(5)} and ${inC.extension.toFixed(5)}, ${inC.steps} steps in C`,
  )
  if (Math.abs(flight.extension - inC.extension) > 1e-3)
    fail('C and JavaScript disagree in extension')
}

function timed(run) {
  const from = performance.now()
  run()
  return performance.now() - from
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

/** Everything a flight in C needs, in the order in which cast.c reads it. */
function described({ buildChain, startState, makeStepper }, input) {
  const chain = buildChain(input)
  const state = startState(chain, input)
  const { crossTable, axialTable } = chain
  const limits = makeStepper(chain, input)
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
  const start = ['x', 'y', 'vx', 'vy', 'cos', 'sin'].map((name) => state[name])
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
  const grown = held() - before
  console.log(
    `heap after ${MANY_FLIGHTS} flights: ${(grown / 1024).toFixed(0)} KiB more than before`,
  )
  if (grown > MOST_GROWTH_BYTES) fail('flights leave something on the heap')
}

function fail(message) {
  console.error(message)
  process.exitCode = 1
}
