// Which folder of src may import what. The table is the architecture: the lint rule
// (import-direction.mjs) and tests/architecture.test.ts both read it from here.
//
//   may       folders, or files without their ending, that it may import besides itself
//   packages  npm packages it may import; missing = any
//   types     npm packages it may import with "import type" only
//   why       completes the sentence "... may not import ... :"

const engineStage = (may, why) => ({ may, packages: [], why })
const lower = (...names) => names.map((name) => `engine/${name}`)

const GROUND = ['units', 'materials', 'tackle']
const LEADER = [...GROUND, 'leader']
const FIGURES = [...LEADER, 'profile', 'strength']
const CAST = [...FIGURES, 'cast']
const PIECES = [...CAST, 'tying', 'pieces']
const DELIVERY = [...PIECES, 'delivery']
const CHECKS = [...DELIVERY, 'checks']

const ORDER =
  'the engine is built in the order units, materials, tackle, leader, then profile, strength and tying, then pieces, cast and delivery, checks, advice; each stands only on earlier ones'

/** @type {Record<string, { may: string[], packages?: string[], types?: string[], why: string }>} */
export const table = {
  engine: {
    may: [],
    packages: [],
    why: 'the engine computes the same in Node, page and worker, and knows nothing above it',
  },
  'engine/units': engineStage([], ORDER),
  'engine/materials': engineStage(lower('units'), ORDER),
  'engine/tackle': engineStage(lower('units', 'materials'), ORDER),
  'engine/leader': engineStage(lower(...GROUND), ORDER),
  'engine/profile': engineStage(lower(...LEADER), ORDER),
  'engine/strength': engineStage(lower(...LEADER), ORDER),
  'engine/cast': engineStage(lower(...FIGURES, 'tying'), ORDER),
  'engine/delivery': engineStage(lower(...CAST), ORDER),
  'engine/pieces': engineStage(lower(...FIGURES, 'tying'), ORDER),
  'engine/checks': engineStage(lower(...DELIVERY), ORDER),
  'engine/explore': engineStage(lower(...CAST, 'tying'), ORDER),
  'engine/compare': engineStage(lower(...CAST, 'tying'), ORDER),
  'engine/advice': engineStage(lower(...CHECKS), ORDER),
  'engine/tying': engineStage(
    lower(...LEADER),
    'cutting takes the leader as it stands and needs no result of strength, cast or checks',
  ),
  documents: {
    may: ['engine', 'formulas', 'wording'],
    packages: ['valibot'],
    why: 'documents turn saved shapes into leaders and back, without page or storage',
  },
  wording: {
    may: ['engine'],
    packages: [],
    why: 'wording turns findings and numbers into sentences and knows nothing of who shows them',
  },
  charts: {
    may: ['engine'],
    packages: [],
    types: ['chart.js'],
    why: 'charts turn engine arrays into datasets; drawing them is the work of features',
  },
  worker: {
    may: ['engine'],
    packages: [],
    why: 'the worker is a thin shell round the engine',
  },
  storage: {
    may: ['documents'],
    packages: ['idb'],
    why: 'storage keeps documents and knows no leader, store or screen',
  },
  stores: {
    may: [
      'engine',
      'documents',
      'formulas',
      'storage',
      'worker/client',
      'worker/protocol',
      'worker/spread',
      'wording',
    ],
    packages: ['vue', 'pinia'],
    why: 'stores hold the state of the app; charts and screens read them, not the other way round',
  },
  ui: {
    may: ['engine/units', 'styles', 'wording'],
    packages: ['vue', 'uqr'],
    why: 'ui parts get everything by props, so that each can be shown without store, worker or storage',
  },
  castViews: {
    may: ['engine', 'documents', 'wording', 'ui', 'worker/protocol'],
    why: 'cast views draw and play casts that it is given, for every feature that shows one',
  },
  features: {
    may: ['stores', 'engine', 'documents', 'wording', 'charts', 'ui', 'castViews'],
    why: 'a feature reaches storage and worker through the stores, and no other feature at all',
  },
  app: {
    may: ['stores', 'wording', 'ui'],
    why: 'the shell opens features by their door (features/<name>/index.ts) and leaves their work to them',
  },
  styles: { may: [], packages: [], why: 'styles stand alone' },
  cli: {
    may: ['engine', 'documents', 'formulas', 'wording', 'charts'],
    why: 'commands run in Node, where there is no page: only the pure folders work there',
  },
  main: {
    may: ['app', 'stores', 'storage', 'worker', 'styles'],
    why: 'main only wires the shell to its surroundings',
  },
  offline: {
    may: [],
    why: 'it is part of the build: it makes the page work without a network and knows nothing of what is in it',
  },
  env: { may: [], why: 'declarations for tools only' },
}

const within = (path, folder) => path === folder || path.startsWith(`${folder}/`)

/**
 * The row of the table that a path under src (without ending) belongs to.
 * @param {string} path
 * @returns {string}
 */
export function rowOf(path) {
  const [first, second, rest] = path.split('/')
  // Files that lie in src/engine itself are not a stage; folders are.
  if (first === 'engine' && rest !== undefined) return `engine/${second}`
  return first
}

const isDoor = (path) => /^features\/[^/]+(\/index)?$/.test(path)
const featureOf = (path) => path.split('/').slice(0, 2).join('/')

function mayImport(from, to) {
  const row = rowOf(from)
  if (row === 'features' && within(to, 'features')) return featureOf(from) === featureOf(to)
  if (row === 'app' && isDoor(to)) return true
  return within(to, row) || table[row].may.some((folder) => within(to, folder))
}

/** Why src/<from> may not import src/<to> (paths without ending), or null if it may. */
export function objection(from, to) {
  const row = rowOf(from)
  if (!table[row]) {
    return `src/${row} has no row in tests/support/import-table.mjs: add one that says what it may import`
  }
  return mayImport(from, to) ? null : `src/${from} may not import ${to}: ${table[row].why}`
}

const packageName = (name) =>
  name
    .split('/')
    .slice(0, name.startsWith('@') ? 2 : 1)
    .join('/')

/** Why src/<from> may not import the npm package, or null if it may. */
export function packageObjection(from, name, typeOnly) {
  const row = rowOf(from)
  const { packages, types = [], why } = table[row] ?? {}
  const wanted = packageName(name)
  if (!packages || packages.includes(wanted)) return null
  if (types.includes(wanted)) {
    return typeOnly ? null : `src/${from} may import only types from ${wanted}: ${why}`
  }
  return `src/${from} may not import the package ${name}: ${why}`
}
