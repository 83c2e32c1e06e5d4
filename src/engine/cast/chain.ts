import type { CastCase, MeshName, Strand } from './castCase'
import { bendingStiffness_N_m2, linearDensity_kg_m } from '../materials'
import { dragTable, AXIAL_FRICTION, CYLINDER_DRAG } from './drag'

/**
 * The chain that stands for line, leader and fly: nodes 0 (rod tip, fixed) to N (fly), joined by links
 * 1 to N that do not stretch; link k runs from node k-1 to node k. Constant during a flight. SI.
 */
export interface Chain {
  readonly links: number
  /** Node at which the line ends and the leader begins. */
  readonly butt: number
  /** Node at which each leader segment begins. */
  readonly jointNodes: readonly number[]
  /** Node nearest to each hung body. */
  readonly hungNodes: readonly number[]
  readonly length_m: Float64Array
  /** 1/length of each link. */
  readonly inverseLength: Float64Array
  /** Largest inverse mass at the ends of each link over its length: frequency squared per tension. */
  readonly waveFactor: Float64Array
  readonly diameter_m: Float64Array
  /** 1/mass of each node; 0 for the rod tip. */
  readonly inverseMass: Float64Array
  readonly mass_kg: Float64Array
  /** Twelfth of each line link's mass, kg. */
  readonly linkInertia: Float64Array
  /** Bending stiffness of the joint at node k, N m/rad: half-links in series. */
  readonly hinge: Float64Array
  /** Natural change of angle at node k, rad. */
  readonly naturalAngle: Float64Array
  readonly leaderLength_m: number
  /** Index of the leader segment of each link; -1 for the line. */
  readonly segmentOf: Int16Array
  readonly crossTable: Float64Array
  readonly axialTable: Float64Array
  /** Times the table: friction is poorly known. */
  readonly axialFactor: number
}

interface MeshSizes {
  /** Longest link of the line where the loop travels, of the resting line, of the leader's stoutest part, m. */
  readonly line: number
  readonly resting: number
  readonly leader: number
  /** Longest line link as a share of the loop's height. */
  readonly loopShare: number
  /**
   * How the leader's longest link grows with fineness: by (stoutest diameter / its own) to this power. The
   * lightest link sets the step, so longer links in the tippet save nodes and steps alike; see `isBraked`.
   */
  readonly fineness: number
  /** Share of the stability limit by tension's wave that a step may use. */
  readonly tensionShare: number
  /** A link that bending would hold to shorter steps than this is made longer, s. */
  readonly leastStep_s: number
}

/** Estimates, chosen by trial; the table of convergence on the instructors' page says what each is worth. */
export const MESHES: Readonly<Record<MeshName, MeshSizes>> = {
  coarse: {
    line: 0.12,
    resting: 0.4,
    leader: 0.055,
    loopShare: 0.15,
    fineness: 0.5,
    tensionShare: 0.5,
    leastStep_s: 1e-4,
  },
  quick: {
    line: 0.08,
    resting: 0.5,
    leader: 0.05,
    loopShare: 0.1,
    fineness: 0,
    tensionShare: 0.5,
    leastStep_s: 1e-4,
  },
  usual: {
    line: 0.06,
    resting: 0.25,
    leader: 0.05,
    loopShare: 1 / 12,
    fineness: 0,
    tensionShare: 0.45,
    leastStep_s: 1e-4,
  },
  fine: {
    line: 0.025,
    resting: 0.06,
    leader: 0.018,
    loopShare: 1 / 30,
    fineness: 0,
    tensionShare: 0.3,
    leastStep_s: 2e-5,
  },
  reference: {
    line: 0.0125,
    resting: 0.04,
    leader: 0.018,
    loopShare: 1 / 40,
    fineness: 0,
    tensionShare: 0.2,
    leastStep_s: 2e-5,
  },
}

interface Piece {
  readonly strand: Strand
  readonly segment: number
  readonly from_m: number
  readonly to_m: number
}

const lengthOf = ({ from_m, to_m }: Piece): number => to_m - from_m
const sumOf = (pieces: readonly Piece[], of: (piece: Piece) => number): number =>
  pieces.reduce((sum, piece) => sum + of(piece), 0)

/** Cuts line and leader into links. `isWhole` leaves the shortest pieces as they are, for rigs. */
export function buildChain(input: CastCase, isWhole = false): Chain {
  const pieces = cut(input)
  const groups = isWhole ? pieces.map((piece) => [piece]) : merged(pieces, input)
  const links = groups.length
  const column = () => new Float64Array(links + 1)
  const [length_m, diameter_m, mass_kg] = [column(), column(), column()]
  const [compliance, turn, linkInertia] = [column(), column(), column()]
  const segmentOf = new Int16Array(links + 1).fill(-1)
  groups.forEach((group, i) => {
    const k = i + 1
    const length = sumOf(group, lengthOf)
    const longest = group.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a))
    length_m[k] = length
    segmentOf[k] = longest.segment
    diameter_m[k] = sumOf(group, (piece) => (middle_m(piece) * lengthOf(piece)) / length)
    compliance[k] = sumOf(group, complianceOf)
    turn[k] = sumOf(group, (piece) => (piece.strand.curl_1_m ?? 0) * lengthOf(piece))
    if (longest.segment < 0) linkInertia[k] = sumOf(group, massOf) / 12
    spread(group, length, (near, far) => {
      mass_kg[k - 1] = at(mass_kg, k - 1) + near
      mass_kg[k] = at(mass_kg, k) + far
    })
  })
  const jointNodes = jointsOf(groups, input.segments.length)
  addKnots(input, jointNodes, mass_kg)
  const butt = segmentOf.findIndex((segment) => segment >= 0) - 1
  const hungNodes = hang(input.hung, butt, length_m, mass_kg)
  mass_kg[links] = at(mass_kg, links) + input.fly.mass_kg
  const inverseMass = mass_kg.map((m, k) => (k === 0 ? 0 : 1 / m))
  return {
    links,
    butt,
    jointNodes,
    hungNodes,
    inverseLength: length_m.map((l) => (l > 0 ? 1 / l : 0)),
    waveFactor: waveFactors(length_m, inverseMass, linkInertia, MESHES[input.mesh].tensionShare),
    linkInertia,
    length_m,
    diameter_m,
    inverseMass,
    mass_kg,
    ...hinges(compliance, turn),
    segmentOf,
    leaderLength_m: input.segments.reduce((sum, s) => sum + s.length_m, 0),
    crossTable: dragTable(CYLINDER_DRAG[input.cylinderDrag]),
    ...axialLaw(input.axialFriction),
  }
}

const middle_m = ({ strand, from_m, to_m }: Piece): number =>
  (diameterAt(strand, from_m) + diameterAt(strand, to_m)) / 2

/** Angle per moment, rad/(N m). */
function complianceOf(piece: Piece): number {
  return lengthOf(piece) / bendingStiffness_N_m2(piece.strand.modulus_Pa, middle_m(piece))
}

/** Of half a piece, by the diameter at that half's middle, kg. */
function halfMass(piece: Piece, share: number): number {
  const d = diameterAt(piece.strand, piece.from_m + share * lengthOf(piece))
  return linearDensity_kg_m(piece.strand.density_kg_m3, d) * (lengthOf(piece) / 2)
}

const massOf = (piece: Piece): number => halfMass(piece, 0.25) + halfMass(piece, 0.75)

/** Puts each half of each piece on the ends of the link: half of a lone piece goes to each. */
function spread(
  group: readonly Piece[],
  length: number,
  put: (near_kg: number, far_kg: number) => void,
): void {
  let before = 0
  for (const piece of group) {
    const [first, second] = [halfMass(piece, 0.25), halfMass(piece, 0.75)]
    if (group.length === 1) return put(first, second)
    const l = lengthOf(piece)
    for (const [mass, share] of [
      [first, 0.25],
      [second, 0.75],
    ] as const) {
      const far = (before + share * l) / length
      put(mass * (1 - far), mass * far)
    }
    before += l
  }
}

/** Node at which each segment begins; within a link of several pieces, its nearer end. */
function jointsOf(groups: readonly (readonly Piece[])[], segments: number): number[] {
  const nodes = new Array<number>(segments).fill(groups.length)
  groups.forEach((group, i) => {
    const length = sumOf(group, lengthOf)
    let before = 0
    for (const piece of group) {
      if (piece.segment >= 0 && piece.from_m === 0)
        nodes[piece.segment] = before < length / 2 ? i : i + 1
      before += lengthOf(piece)
    }
  })
  return nodes
}

/** Shorter links than this are worth nothing and shorten the step, m; estimate. */
const SHORTEST_M = 0.01

/**
 * The shortest link of this strand that bending leaves a step of so many seconds. On a level strand the square
 * of the stiffest joint's frequency is E d^2/(rho l^4): see `bendingLimit`. Derived.
 */
function shortestLink_m(strand: Strand, { bendingDamping_s, mesh }: CastCase): number {
  const d = thickness(strand)
  const perFourth = (strand.modulus_Pa * d * d) / strand.density_kg_m3
  const step = MESHES[mesh].leastStep_s
  return Math.max(SHORTEST_M, (perFourth * step * Math.max(step, bendingDamping_s / 0.8)) ** 0.25)
}

/** Joins pieces that are too short to the next, within line and within leader; mass and stiffness are kept. */
function merged(pieces: readonly Piece[], input: CastCase): Piece[][] {
  const groups: Piece[][] = []
  const enough = (group: readonly Piece[]) =>
    sumOf(group, lengthOf) >=
    Math.max(...group.map(({ strand }) => shortestLink_m(strand, input))) - 1e-9
  const isLine = ([piece]: readonly Piece[]) => (piece?.segment ?? 0) < 0
  for (const piece of pieces) {
    const last = groups.at(-1)
    if (last && isLine(last) === isLine([piece]) && !enough(last)) last.push(piece)
    else groups.push([piece])
  }
  return groups.reduce<Piece[][]>((joined, group) => {
    const last = joined.at(-1)
    // What is left over at the end of line or leader goes to the link before it.
    if (last && isLine(last) === isLine(group) && !enough(group)) last.push(...group)
    else joined.push(group)
    return joined
  }, [])
}

/**
 * The extrapolated accelerations of link inertia feed waves as the cube of the step: with no stiffness to
 * damp them a loop blows up at 0.45 of the limit, and is right to 0.5 % at 0.2 (estimate, by trial).
 */
const SHARE_WITH_INERTIA = 0.2

function waveFactors(
  length_m: Float64Array,
  inverseMass: Float64Array,
  linkInertia: Float64Array,
  share: number,
): Float64Array {
  const stricter = Math.max(1, share / SHARE_WITH_INERTIA) ** 2
  return length_m.map((l, k) => {
    if (k === 0) return 0
    const factor = Math.max(at(inverseMass, k), at(inverseMass, k - 1)) / l
    return at(linkInertia, k) > 0 ? factor * stricter : factor
  })
}

function axialLaw(given: CastCase['axialFriction']): Pick<Chain, 'axialTable' | 'axialFactor'> {
  if (typeof given === 'number') return { axialTable: dragTable(CONSTANT), axialFactor: given }
  const { law, factor } = typeof given === 'string' ? { law: given, factor: 1 } : given
  return { axialTable: dragTable(AXIAL_FRICTION[law]), axialFactor: factor }
}

const CONSTANT = () => 1

const at = (column: Float64Array, i: number): number => column[i] as number

function diameterAt({ diameterFrom_m, diameterTo_m, length_m }: Strand, x: number): number {
  return diameterFrom_m + ((diameterTo_m - diameterFrom_m) * x) / length_m
}

/** A knot's mass sits on the node at the head of its segment; the last knot sits with the fly. */
function addKnots({ knots }: CastCase, jointNodes: readonly number[], mass_kg: Float64Array): void {
  for (const { joint, mass_kg: mass } of knots) {
    const node = jointNodes[joint] ?? mass_kg.length - 1
    mass_kg[node] = at(mass_kg, node) + mass
  }
}

/** Puts each hung body's mass on the node nearest to its place; those nodes. */
function hang(
  hung: CastCase['hung'] = [],
  butt: number,
  length_m: Float64Array,
  mass_kg: Float64Array,
): number[] {
  return hung.map((body) => {
    let [node, left_m] = [butt, body.at_m]
    while (node < length_m.length - 1 && left_m > at(length_m, node + 1) / 2)
      left_m -= at(length_m, ++node)
    mass_kg[node] = at(mass_kg, node) + body.mass_kg
    return node
  })
}

/** Joints between links: half of each in series, half of each one's natural turn. */
function hinges(compliance: Float64Array, turn: Float64Array) {
  const hinge = new Float64Array(compliance.length)
  const naturalAngle = new Float64Array(compliance.length)
  for (let k = 1; k < compliance.length - 1; k++) {
    const both = (at(compliance, k) + at(compliance, k + 1)) / 2
    hinge[k] = both > 0 && Number.isFinite(both) ? 1 / both : 0
    naturalAngle[k] = (at(turn, k) + at(turn, k + 1)) / 2
  }
  return { hinge, naturalAngle }
}

function cut(input: CastCase): Piece[] {
  const { loopStart_m, loopHeight_m } = input.cast
  const sizes = MESHES[input.mesh]
  const travelled = Math.min(sizes.line, loopHeight_m * sizes.loopShare)
  let along = 0
  const line = input.line.flatMap((strand) => {
    const resting = Math.min(strand.length_m, Math.max(0, loopStart_m - RESTING_MARGIN_M - along))
    along += strand.length_m
    return [
      ...even(strand, -1, 0, resting, sizes.resting),
      ...even(strand, -1, resting, strand.length_m, travelled),
    ]
  })
  const stoutest = Math.max(...input.segments.map(thickness))
  const fineness = isBraked(input) ? sizes.fineness : 0
  const leader = input.segments.flatMap((strand, i) => {
    const longest = sizes.leader * (stoutest / thickness(strand)) ** fineness
    return even(strand, i, 0, strand.length_m, longest)
  })
  return [...line, ...leader]
}

/**
 * Whether the air takes nearly all speed from the fly over the length of the leader. One that it does not
 * bounces at the leader's end, and with long links in the tippet it would bounce to other heights at every
 * line speed: up to 11 % in least line speed. With even links it is 2 %, 5 % in a loop of 0.3 m.
 */
export function isBraked({ air, fly, segments }: CastCase): boolean {
  const length = segments.reduce((sum, s) => sum + s.length_m, 0)
  return (air.density_kg_m3 / 2) * fly.dragArea_m2 * length >= BRAKED * fly.mass_kg
}

/** In powers of e of the fly's speed, estimate: by trial on the shipped leaders. */
const BRAKED = 2

const thickness = ({ diameterFrom_m, diameterTo_m }: Strand): number =>
  Math.max(diameterFrom_m, diameterTo_m)

/** The resting leg is bent near the loop, so the fine mesh begins a little before it, estimate. */
const RESTING_MARGIN_M = 0.4

function even(strand: Strand, segment: number, from: number, to: number, longest: number): Piece[] {
  const length = to - from
  if (length <= 1e-9) return []
  const count = Math.max(1, Math.ceil(length / longest - 1e-9))
  return Array.from({ length: count }, (_, i) => ({
    strand,
    segment,
    from_m: from + (length * i) / count,
    to_m: from + (length * (i + 1)) / count,
  }))
}
