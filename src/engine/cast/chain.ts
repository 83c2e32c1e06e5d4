import type { CastCase, MeshName, Strand } from './castCase'
import { dragTable, AXIAL_FRICTION, CYLINDER_DRAG } from './drag'

/**
 * The chain that stands for line, leader and fly: nodes 0 (rod tip, fixed) to N (fly), joined by links
 * 1 to N that do not stretch; link k runs from node k-1 to node k. Constant during a flight. SI.
 */
export interface Chain {
  readonly links: number
  /** Node at which the line ends and the leader begins. */
  readonly butt: number
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
   * lightest link sets the step, so longer links in the tippet save nodes and steps alike.
   */
  readonly fineness: number
  /** Share of the stability limit by tension's wave that a step may use. */
  readonly tensionShare: number
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
  },
  usual: {
    line: 0.06,
    resting: 0.25,
    leader: 0.05,
    loopShare: 1 / 12,
    fineness: 0,
    tensionShare: 0.45,
  },
  fine: {
    line: 0.025,
    resting: 0.06,
    leader: 0.018,
    loopShare: 1 / 30,
    fineness: 0,
    tensionShare: 0.3,
  },
  reference: {
    line: 0.0125,
    resting: 0.04,
    leader: 0.018,
    loopShare: 1 / 40,
    fineness: 0,
    tensionShare: 0.2,
  },
}

interface Piece {
  readonly strand: Strand
  readonly segment: number
  readonly from_m: number
  readonly to_m: number
}

/** Cuts line and leader into links; every joint of strands is a node. */
export function buildChain(input: CastCase): Chain {
  const pieces = cut(input)
  const links = pieces.length
  const column = () => new Float64Array(links + 1)
  const [length_m, diameter_m, mass_kg, stiffness, curl] = [
    column(),
    column(),
    column(),
    column(),
    column(),
  ]
  const linkInertia = column()
  const segmentOf = new Int16Array(links + 1).fill(-1)
  pieces.forEach((piece, i) => {
    const k = i + 1
    const { strand, from_m, to_m } = piece
    const [a, b] = [diameterAt(strand, from_m), diameterAt(strand, to_m)]
    const length = to_m - from_m
    length_m[k] = length
    diameter_m[k] = (a + b) / 2
    segmentOf[k] = piece.segment
    curl[k] = strand.curl_1_m ?? 0
    stiffness[k] = (strand.modulus_Pa * Math.PI * ((a + b) / 2) ** 4) / 64
    // Half of the mass goes to each end; of a tapering link the thicker end gets its own half.
    linkInertia[k] =
      piece.segment < 0
        ? (strand.density_kg_m3 * (Math.PI / 4) * length * ((a + b) / 2) ** 2) / 12
        : 0
    const perVolume = strand.density_kg_m3 * (Math.PI / 4) * (length / 2)
    mass_kg[k - 1] = at(mass_kg, k - 1) + perVolume * ((3 * a + b) / 4) ** 2
    mass_kg[k] = at(mass_kg, k) + perVolume * ((a + 3 * b) / 4) ** 2
  })
  const butt = segmentOf.findIndex((segment) => segment >= 0) - 1
  addKnots(input, segmentOf, mass_kg)
  mass_kg[links] = at(mass_kg, links) + input.fly.mass_kg
  const inverseMass = mass_kg.map((m, k) => (k === 0 ? 0 : 1 / m))
  const { hinge, naturalAngle } = hinges(length_m, stiffness, curl)
  return {
    links,
    butt,
    inverseLength: length_m.map((l) => (l > 0 ? 1 / l : 0)),
    waveFactor: waveFactors(length_m, inverseMass, linkInertia, MESHES[input.mesh].tensionShare),
    linkInertia,
    length_m,
    diameter_m,
    inverseMass,
    mass_kg,
    hinge,
    naturalAngle,
    segmentOf,
    leaderLength_m: input.segments.reduce((sum, s) => sum + s.length_m, 0),
    crossTable: dragTable(CYLINDER_DRAG[input.cylinderDrag]),
    axialTable: axialTable(input.axialFriction),
  }
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

function axialTable(law: CastCase['axialFriction']): Float64Array {
  if (typeof law === 'number') return dragTable(() => law)
  if (typeof law === 'string') return dragTable(AXIAL_FRICTION[law])
  const { factor } = law
  return dragTable(AXIAL_FRICTION[law.law]).map((value) => factor * value)
}

const at = (column: Float64Array, i: number): number => column[i] as number

function diameterAt({ diameterFrom_m, diameterTo_m, length_m }: Strand, x: number): number {
  return diameterFrom_m + ((diameterTo_m - diameterFrom_m) * x) / length_m
}

/** A knot's mass sits on the node at the head of its segment; the last knot sits with the fly. */
function addKnots({ knots }: CastCase, segmentOf: Int16Array, mass_kg: Float64Array): void {
  for (const { joint, mass_kg: mass } of knots) {
    const first = segmentOf.indexOf(joint)
    const node = first < 0 ? segmentOf.length - 1 : first - 1
    mass_kg[node] = at(mass_kg, node) + mass
  }
}

function hinges(length_m: Float64Array, stiffness: Float64Array, curl: Float64Array) {
  const hinge = new Float64Array(length_m.length)
  const naturalAngle = new Float64Array(length_m.length)
  for (let k = 1; k < length_m.length - 1; k++) {
    const [a, b] = [at(length_m, k) / 2, at(length_m, k + 1) / 2]
    const compliance = a / at(stiffness, k) + b / at(stiffness, k + 1)
    hinge[k] = compliance > 0 && Number.isFinite(compliance) ? 1 / compliance : 0
    naturalAngle[k] = a * at(curl, k) + b * at(curl, k + 1)
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
  const leader = input.segments.flatMap((strand, i) => {
    const longest = sizes.leader * (stoutest / thickness(strand)) ** sizes.fineness
    return even(strand, i, 0, strand.length_m, longest)
  })
  return [...line, ...leader]
}

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
