/**
 * A cast flown by other means than the engine's, to judge it by; it shares no code with it. The unknowns are the
 * angles of the links and their rates, so that no link can stretch; the tensions come from the accelerations that
 * keep the lengths (Lagrange's multipliers, a tridiagonal solve); the integrator is adaptive extrapolation (odex,
 * after Hairer, Norsett and Wanner, Solving Ordinary Differential Equations I, 1993). Links are cut evenly, whatever
 * the strands' ends; mass, stiffness and thickness are integrals over them. SI.
 */
import { Solver } from 'odex'

/**
 * Longest links: where the loop travels, of the resting line, of the leader, m; the longest step, s. Lumped masses
 * want links as short as these for the fly's speed at the turn; the quick ones are right to 0.005 in extension.
 */
export const PITCH = { line: 0.012, resting: 0.04, leader: 0.018, step_s: 2e-4, tolerance: 1e-6 }
/** For how the lay changes with the speed thrown: within 0.02 of the lay of the finest. */
export const NEIGHBOURS = { ...PITCH, line: 0.02, leader: 0.024, step_s: 3e-4, tolerance: 1e-5 }
const QUICK = { ...PITCH, line: 0.04, leader: 0.045, step_s: 5e-4, tolerance: 1e-5 }

// The laws, written anew. Cheng, 2013; Sucker and Brauer, 1975, and Matsui, 1976, from memory.
const ACROSS = {
  cheng: (re) =>
    11 * re ** -0.75 +
    0.9 * (1 - Math.exp(-1000 / re)) +
    1.2 * (1 - Math.exp(-((re / 4500) ** 0.7))),
  'sucker-brauer': (re) =>
    1.18 + 6.8 / re ** 0.89 + 1.96 / Math.sqrt(re) - (0.0004 * re) / (1 + 3.64e-7 * re ** 2),
}
const ALONG = { matsui: (re) => 0.37 / re ** 0.61 }

/** Every strand by where it begins and ends, from the rod tip. */
function laidEndToEnd(strands) {
  let from = 0
  return strands.map((strand) => {
    const begins = from
    from += strand.length_m
    const first = strand.diameter_m ?? strand.diameterFrom_m
    const last = strand.diameter_m ?? strand.diameterTo_m
    const thick = (s) => first + ((last - first) * (s - begins)) / strand.length_m
    return { ...strand, begins, ends: from, thick }
  })
}

/** Integral of a quantity of the strands from a to b by the midpoint rule, sixteen parts a strand. */
function integral(strands, a, b, quantity) {
  let sum = 0
  for (const strand of strands) {
    const [low, high] = [Math.max(a, strand.begins), Math.min(b, strand.ends)]
    const part = (high - low) / 16
    if (part <= 0) continue
    for (let i = 0; i < 16; i++) {
      const s = low + (i + 0.5) * part
      sum += quantity(strand, s) * part
    }
  }
  return sum
}

const perMetre = (strand, s) => (strand.density_kg_m3 * Math.PI * strand.thick(s) ** 2) / 4
const bendiness = (strand, s) => 64 / (strand.modulus_Pa * Math.PI * strand.thick(s) ** 4)

function evenly(from, to, pitch) {
  const count = Math.max(1, Math.ceil((to - from) / pitch - 1e-9))
  return to - from < 1e-9
    ? []
    : Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 1)) / count)
}

function chainOf(given, pitch) {
  const strands = laidEndToEnd([...given.line, ...given.segments])
  const lineEnd = given.line.reduce((sum, { length_m }) => sum + length_m, 0)
  const end = strands.at(-1).ends
  const restEnd = Math.min(lineEnd, Math.max(0, given.cast.loopStart_m - 0.6))
  const at = [
    0,
    ...evenly(0, restEnd, pitch.resting),
    ...evenly(restEnd, lineEnd, pitch.line),
    ...evenly(lineEnd, end, pitch.leader),
  ]
  const links = at.length - 1
  const mass = new Float64Array(links + 1)
  /** By the law of the lever, onto the ends of link k. */
  const share = (k, s, kg) => {
    const far = (s - at[k - 1]) / (at[k] - at[k - 1])
    mass[k - 1] += kg * (1 - far)
    mass[k] += kg * far
  }
  const length = new Float64Array(links + 1)
  const width = new Float64Array(links + 1)
  const hinge = new Float64Array(links + 1)
  for (let k = 1; k <= links; k++) {
    const [a, b] = [at[k - 1], at[k]]
    const kg = integral(strands, a, b, perMetre)
    length[k] = b - a
    width[k] = integral(strands, a, b, (strand, s) => strand.thick(s)) / (b - a)
    share(k, integral(strands, a, b, (strand, s) => s * perMetre(strand, s)) / kg, kg)
  }
  for (let k = 1; k < links; k++) {
    const [a, b] = [(at[k - 1] + at[k]) / 2, (at[k] + at[k + 1]) / 2]
    hinge[k] = 1 / integral(strands, a, b, bendiness)
  }
  const joints = [...laidEndToEnd(given.segments).map(({ begins }) => lineEnd + begins), end]
  for (const { joint, mass_kg } of given.knots ?? []) {
    const s = joints[Math.min(joint, joints.length - 1)]
    const k = Math.max(
      1,
      at.findIndex((place) => place >= s - 1e-9),
    )
    share(k, s, mass_kg)
  }
  mass[links] += given.fly.mass_kg
  const butt = at.findIndex((place) => place > lineEnd - 1e-9)
  return { at, links, butt, mass, length, width, hinge, leader: end - lineEnd }
}

/** Angles and rates of a loop that rolls: rod leg at rest, half circle, the rest back over it at line speed. */
function formedLoop({ at, links, length }, { cast }) {
  const launch = (cast.launchAngle_deg * Math.PI) / 180
  const arc = (Math.PI * cast.loopHeight_m) / 2
  const turned = (s) => launch + Math.PI * Math.min(1, Math.max(0, (s - cast.loopStart_m) / arc))
  // A strand that rolls: half the line speed forward, half of it back along itself.
  const velocity = (s) => [
    Math.cos(launch) - Math.cos(turned(s)),
    Math.sin(launch) - Math.sin(turned(s)),
  ]
  const y = new Array(2 * links)
  let [flyX, flyY] = [0, 0]
  for (let k = 1; k <= links; k++) {
    const angle = turned((at[k - 1] + at[k]) / 2)
    const [near, far] = [velocity(at[k - 1]), velocity(at[k])]
    const rate =
      ((far[1] - near[1]) * Math.cos(angle) - (far[0] - near[0]) * Math.sin(angle)) / length[k]
    y[k - 1] = angle
    y[links + k - 1] = rate
    flyX -= length[k] * rate * Math.sin(angle)
    flyY += length[k] * rate * Math.cos(angle)
  }
  const scale = cast.lineSpeed_m_s / Math.hypot(flyX, flyY)
  for (let k = links; k < 2 * links; k++) y[k] *= scale
  return y
}

/** How fast water stops a node, 1/s: from nothing at its surface to the whole 4 mm down (the model's own choice). */
function hold(height) {
  const depth = Math.min(1, Math.max(0, -height / 0.004))
  return 4000 * depth * depth * (3 - 2 * depth)
}

/** Drag area of hair and hackle, which bends back: given for 6 m/s, the law taken as level below 0.5 m/s. */
const dragAreaAt = ({ dragArea_m2, dragExponent = 0 }, speed) =>
  dragArea_m2 * (Math.max(speed, 0.5) / 6) ** -dragExponent

function motion(chain, given) {
  const { links, mass, length, width, hinge } = chain
  const { air, fly, gravity_m_s2, wind_m_s, bendingDamping_s, cast } = given
  const [rho, nu] = [air.density_kg_m3, air.kinematicViscosity_m2_s]
  const across = ACROSS[given.cylinderDrag]
  const along =
    typeof given.axialFriction === 'number' ? () => given.axialFriction : ALONG[given.axialFriction]
  const column = () => new Float64Array(links + 2)
  const [c, s, vx, vy, fx, fy] = Array.from({ length: 6 }, column)
  const [upper, tension, ax, ay] = Array.from({ length: 4 }, column)
  const inverse = mass.map((kg, k) => (k === 0 ? 0 : 1 / kg))
  const push = (law, speed, d, area) => {
    const size = Math.abs(speed)
    return size < 1e-9 ? 0 : 0.5 * rho * area * law((size * d) / nu) * size * speed
  }

  function forces(y) {
    let height = cast.tipHeight_m
    fx[0] = fy[0] = 0
    for (let k = 1; k <= links; k++) {
      c[k] = Math.cos(y[k - 1])
      s[k] = Math.sin(y[k - 1])
      const turning = length[k] * y[links + k - 1]
      vx[k] = vx[k - 1] - turning * s[k]
      vy[k] = vy[k - 1] + turning * c[k]
      height += length[k] * s[k]
      const held = height < 0 ? mass[k] * hold(height) : 0
      fx[k] = -held * vx[k]
      fy[k] = -held * vy[k] - mass[k] * gravity_m_s2
      const [ux, uy] = [(vx[k - 1] + vx[k]) / 2 - wind_m_s, (vy[k - 1] + vy[k]) / 2]
      const side = length[k] * width[k]
      const normal = push(across, uy * c[k] - ux * s[k], width[k], side)
      const axial = push(along, ux * c[k] + uy * s[k], width[k], Math.PI * side)
      const [dx, dy] = [axial * c[k] - normal * s[k], axial * s[k] + normal * c[k]]
      fx[k - 1] -= dx / 2
      fy[k - 1] -= dy / 2
      fx[k] -= dx / 2
      fy[k] -= dy / 2
    }
    const [ux, uy] = [vx[links] - wind_m_s, vy[links]]
    const through = Math.hypot(ux, uy)
    const drag = 0.5 * rho * dragAreaAt(fly, through) * through
    fx[links] -= drag * ux
    fy[links] -= drag * uy
  }

  /** Each link is turned by the moments at its ends: a couple of forces across it. */
  function bend(y) {
    let before = 0
    for (let k = 1; k <= links; k++) {
      const after =
        k === links
          ? 0
          : hinge[k] * (y[k] - y[k - 1] + bendingDamping_s * (y[links + k] - y[links + k - 1]))
      const force = (after - before) / length[k]
      fx[k] -= force * s[k]
      fy[k] += force * c[k]
      fx[k - 1] += force * s[k]
      fy[k - 1] -= force * c[k]
      before = after
    }
  }

  /** Tensions under which the ends of each link part no faster than its turning asks. */
  function hang(y) {
    for (let k = 1; k <= links; k++) {
      const turned = k > 1 ? c[k - 1] * c[k] + s[k - 1] * s[k] : 0
      const lower = -inverse[k - 1] * turned
      const next = k < links ? -inverse[k] * (c[k] * c[k + 1] + s[k] * s[k + 1]) : 0
      const wanted =
        inverse[k] * (fx[k] * c[k] + fy[k] * s[k]) -
        inverse[k - 1] * (fx[k - 1] * c[k] + fy[k - 1] * s[k]) +
        length[k] * y[links + k - 1] ** 2
      const pivot = inverse[k] + inverse[k - 1] - lower * upper[k - 1]
      upper[k] = next / pivot
      tension[k] = (wanted - lower * tension[k - 1]) / pivot
    }
    for (let k = links - 1; k >= 1; k--) tension[k] -= upper[k] * tension[k + 1]
  }

  return function derivative(_time, y) {
    forces(y)
    bend(y)
    hang(y)
    const change = new Array(2 * links)
    for (let k = 1; k <= links; k++) {
      const [t, tn] = [tension[k], k < links ? tension[k + 1] : 0]
      ax[k] = inverse[k] * (fx[k] - t * c[k] + tn * (c[k + 1] ?? 0))
      ay[k] = inverse[k] * (fy[k] - t * s[k] + tn * (s[k + 1] ?? 0))
      change[k - 1] = y[links + k - 1]
      change[links + k - 1] = ((ay[k] - ay[k - 1]) * c[k] - (ax[k] - ax[k - 1]) * s[k]) / length[k]
    }
    return change
  }
}

/** What is seen of a moment: chord and its direction, share unrolled, the fly. */
function seen({ links, butt, length, leader }, { cast }, time, y) {
  const now = {
    time,
    x: 0,
    dx: 0,
    dy: 0,
    vx: 0,
    vy: 0,
    height: cast.tipHeight_m,
    forward: 0,
    cos: 0,
  }
  for (let k = 1; k <= links; k++) {
    const [c, s, turning] = [Math.cos(y[k - 1]), Math.sin(y[k - 1]), length[k] * y[links + k - 1]]
    now.vx -= turning * s
    now.vy += turning * c
    now.x += length[k] * c
    now.height += length[k] * s
    now.cos = c
    if (k <= butt) continue
    now.dx += length[k] * c
    now.dy += length[k] * s
    if (c > 0) now.forward += length[k] / leader
  }
  return { ...now, chord: Math.hypot(now.dx, now.dy) / leader, speed: Math.hypot(now.vx, now.vy) }
}

const between = (a, b, share) => a + share * (b - a)

/** Top of the parabola through three looks. */
function peakOf(a, b, c) {
  const [left, right] = [b.time - a.time, c.time - b.time]
  const slope = (b.chord - a.chord) / left
  const curve = ((c.chord - b.chord) / right - slope) / (left + right)
  const time = (a.time + b.time) / 2 - slope / (2 * curve)
  return { time, chord: b.chord - curve * (time - b.time) ** 2 }
}

/** Flies a case and shows each moment to `watch`, until its end or until that returns false. */
function fly(given, pitch, watch) {
  const chain = chainOf(given, pitch)
  const solver = new Solver(2 * chain.links)
  solver.absoluteTolerance = solver.relativeTolerance = pitch.tolerance
  solver.maxStepSize = pitch.step_s
  solver.maxSteps = 1e7
  const look = (_n, _from, time, y) => watch(seen(chain, given, time, y))
  solver.solve(motion(chain, given), 0, formedLoop(chain, given), given.endTime_s, look)
}

/**
 * Flies a case, written as the command line reads it and with nothing left out, until its end or until the fly is
 * on the water; or until an extension is enough.
 */
export function flyCase(given, pitch = PITCH, enough = Infinity) {
  const found = {
    extension: 0,
    timeOfExtension_s: null,
    unrolledFraction: 0,
    flySpeedAtTurn_m_s: null,
    touchTime_s: null,
    touchSpeed_m_s: null,
  }
  const looks = []
  const keep = (time, chord) => {
    if (chord > found.extension) Object.assign(found, { extension: chord, timeOfExtension_s: time })
  }
  fly(given, pitch, (now) => {
    looks.push(now)
    if (looks.length > 3) looks.shift()
    const [older, last] = looks.length === 3 ? looks : [undefined, looks[0]]
    if (found.flySpeedAtTurn_m_s === null && last.cos < 0 && now.cos >= 0)
      found.flySpeedAtTurn_m_s = between(last.speed, now.speed, last.cos / (last.cos - now.cos))
    if (older && last.dx > 0 && last.chord >= older.chord && last.chord > now.chord) {
      const peak = peakOf(older, last, now)
      keep(peak.time, peak.chord)
    }
    found.unrolledFraction = Math.max(found.unrolledFraction, now.forward)
    if (now.height > 0) return found.extension >= enough ? false : undefined
    const share = shareAtTouch(last, now)
    found.touchTime_s = between(last.time, now.time, share)
    found.touchSpeed_m_s = between(last.speed, now.speed, share)
    if (now.dx > 0) keep(found.touchTime_s, between(last.chord, now.chord, share))
    return false
  })
  return found
}

/** Where between two looks the fly was at the water's surface. */
const shareAtTouch = (last, now) => last.height / (last.height - now.height)

/** Speed (m/s) at which a fly falls in still air, where its drag is its weight. */
function fallSpeed({ fly: given, air, gravity_m_s2 }) {
  const drag = (v) => 0.5 * air.density_kg_m3 * dragAreaAt(given, v) * v * v
  let [slow, fast] = [0, 100]
  for (let i = 0; i < 60; i++) {
    const middle = (slow + fast) / 2
    if (drag(middle) < given.mass_kg * gravity_m_s2) slow = middle
    else fast = middle
  }
  return slow
}

/**
 * How a cast comes down, at the moment the fly touches the water: how far the fly is ahead of the butt as a share of
 * the leader, how far it is out as a share of line and leader, and how fast it comes down. Null of a fly that never does.
 */
export function landingOf(given, pitch = PITCH) {
  let [last, landing] = [null, null]
  fly(given, pitch, (now) => {
    if (now.height <= 0) landing = landed(given, last, now)
    last = now
    return landing === null ? undefined : false
  })
  return landing
}

function landed(given, last, now) {
  const share = shareAtTouch(last, now)
  const at = (key) => between(last[key], now[key], share)
  const lengthOf = (strands) => strands.reduce((sum, { length_m }) => sum + length_m, 0)
  const leader = lengthOf(given.segments)
  return {
    touchTime_s: at('time'),
    lay: at('dx') / leader,
    reachShare: at('x') / (lengthOf(given.line) + leader),
    touchSpeedDown_m_s: -at('vy'),
    touchSpeedRatio: -at('vy') / fallSpeed(given),
  }
}

/** Least line speed (m/s) for an extension of 0.95, by halving between two speeds of which only one reaches it. */
export function leastSpeed(given, low, high, tolerance) {
  const reaches = (lineSpeed_m_s) => {
    const cast = { ...given.cast, lineSpeed_m_s }
    const whole = { ...given, cast, endTime_s: 2.5 }
    const { extension, unrolledFraction } = flyCase(whole, QUICK, 0.95)
    return extension >= 0.95 && unrolledFraction >= 0.8
  }
  if (reaches(low) || !reaches(high)) return null
  let [fails, does] = [low, high]
  while (does - fails > tolerance) {
    const middle = (fails + does) / 2
    if (reaches(middle)) does = middle
    else fails = middle
  }
  return (fails + does) / 2
}
