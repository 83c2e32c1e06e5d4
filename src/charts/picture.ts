/** Drawing and charts as SVG files: black on white, so that they print, mail and paste anywhere. Pure. */
import type { Evaluation } from '../engine/evaluate'
import { jointsIn } from '../engine/pieces'
import type { Family } from '../engine/materials'
import type { ChartPoint, ProfileSeries } from './profileSeries'
import { USUAL_LINE_TIP_M } from '../engine/tackle'

interface Size {
  readonly width: number
  readonly height: number
}

/** Words beside a piece: what it measures and how long it is. */
export interface PieceWords {
  readonly size: string
  readonly length: string
}

const MARGIN = 8

const FILLS: Readonly<Record<Family, string>> = {
  nylon: '#c9c9c9',
  copolymer: 'url(#dots)',
  fluorocarbon: 'url(#stripes)',
  polyester: 'url(#stripes)',
  braid: 'url(#dots)',
  wire: '#555',
}
const PATTERNS =
  '<defs><pattern id="stripes" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" fill="#fff"/><path d="M0 0v5" stroke="#000" stroke-width="2"/></pattern>' +
  '<pattern id="dots" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" fill="#fff"/><circle cx="2.5" cy="2.5" r="1.1"/></pattern></defs>'

/** The leader to length from line to fly, its diameters exaggerated alike; words where there is room. */
export function drawingSvg(
  evaluation: Evaluation,
  words: readonly PieceWords[],
  title: string,
  { width, height }: Size,
): string {
  const {
    pieces,
    profile: { total_m },
    line,
  } = evaluation
  const middle = height / 2
  const tip_m = line?.tipDiameter_m ?? USUAL_LINE_TIP_M
  const thick =
    (height * 0.34) / Math.max(tip_m, ...pieces.map(({ profile }) => profile.diameter_m))
  const at = (m: number) => round(MARGIN + (m / total_m) * (width - 3 * MARGIN))
  const bars = pieces.map(({ profile: s }, i) => {
    const [x, w, h] = [
      at(s.start_m),
      round((s.length_m / total_m) * (width - 3 * MARGIN)),
      round(Math.max(1.4, s.diameter_m * thick)),
    ]
    const rect = `<rect x="${x}" y="${round(middle - h / 2)}" width="${w}" height="${h}" fill="${FILLS[s.material.family]}" stroke="#000" stroke-width=".8"/>`
    return rect + wordsAt(words[i], round(x + w / 2), w, height)
  })
  const knots = jointsIn(evaluation).map(
    (j) =>
      `<ellipse cx="${at(j.distance_m)}" cy="${middle}" rx="2.6" ry="4.6" fill="#fff" stroke="#000"/>`,
  )
  const lineEnd = `<path d="M0 ${middle}H${MARGIN}" stroke="#000" stroke-width="${round(Math.max(1.4, tip_m * thick))}" stroke-dasharray="3 2"/>`
  return svg(title, { width, height }, [PATTERNS, lineEnd, ...bars, ...knots])
}

/** About the width of a letter at the drawing's size of type. */
const LETTER = 5.6

function wordsAt(words: PieceWords | undefined, x: number, width: number, height: number): string {
  if (!words) return ''
  const fits = (text: string) => text.length * LETTER <= width
  const size = fits(words.size) ? text(x, 11, words.size, 'middle') : ''
  return size + (fits(words.length) ? text(x, height - 4, words.length, 'middle') : '')
}

const AXIS = { left: 54, right: 12, top: 22, bottom: 26 }

/** A tick of the axis along the leader. */
export interface Tick {
  readonly at_m: number
  readonly words: string
}

/** One curve along the leader with its axes. */
export function chartSvg(
  series: ProfileSeries,
  total_m: number,
  ticks: readonly Tick[],
  { width, height }: Size,
): string {
  const all = [...series.points, ...(series.second?.points ?? []), ...(series.marks?.points ?? [])]
  const scale = series.decades ? logScale(series.decades) : linearScale(all)
  const x = (m: number) => round(AXIS.left + (m / total_m) * (width - AXIS.left - AXIS.right))
  const y = (value: number) =>
    round(height - AXIS.bottom - scale.share(value) * (height - AXIS.top - AXIS.bottom))
  const grid = scale.ticks.map(
    (value) =>
      `<path d="M${AXIS.left} ${y(value)}H${width - AXIS.right}" stroke="#bbb" stroke-width=".6"/>` +
      text(AXIS.left - 5, y(value) + 4, String(Number(value.toPrecision(3))), 'end'),
  )
  const below = ticks.map(({ at_m, words }) => text(x(at_m), height - 8, words, 'middle'))
  const curve = (points: readonly ChartPoint[], style: string) =>
    `<polyline points="${points.map((p) => `${x(p.x)},${y(p.y)}`).join(' ')}" fill="none" stroke="#000" ${style}/>`
  const marks = (series.marks?.points ?? []).map(
    (p) => `<path d="M${x(p.x)} ${y(p.y) - 4}l4 4-4 4-4-4z"/>`,
  )
  const [second, diamonds] = [series.second?.title, series.marks?.title]
  const unit = `${series.title}, ${series.unit}${series.isLog ? ', log scale' : ''}`
  const legend = [unit, second && `dotted: ${second}`, diamonds && `diamonds: ${diamonds}`]
  return svg(series.title, { width, height }, [
    ...grid,
    ...below,
    ...(series.second ? [curve(series.second.points, 'stroke-dasharray="2 3"')] : []),
    curve(series.points, 'stroke-width="1.8"'),
    ...marks,
    text(AXIS.left, 13, legend.filter(Boolean).join(' · '), 'start'),
  ])
}

function linearScale(points: readonly ChartPoint[]) {
  const top = Math.max(1e-12, ...points.map((p) => p.y)) * 1.08
  const step = niceStep(top / 4)
  const ticks = Array.from({ length: Math.floor(top / step) + 1 }, (_, k) => k * step)
  return { share: (value: number) => value / top, ticks }
}

function logScale([low, high]: readonly [number, number]) {
  const [a, b] = [Math.log10(low), Math.log10(high)]
  const ticks = Array.from({ length: Math.round(b - a) + 1 }, (_, k) => 10 ** (a + k))
  return { share: (value: number) => (Math.log10(Math.max(value, low)) - a) / (b - a), ticks }
}

/** 1, 2 or 5 times a power of ten. */
function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  return ([1, 2, 5].find((n) => n * power >= rough) ?? 10) * power
}

const round = (value: number) => Math.round(value * 100) / 100

const escaped = (words: string) =>
  words.replace(
    /[&<>"]/g,
    (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c,
  )

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end'): string {
  return `<text x="${x}" y="${y}" font-family="sans-serif" font-size="11" text-anchor="${anchor}">${escaped(words)}</text>`
}

function svg(title: string, { width, height }: Size, parts: readonly string[]): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><title>${escaped(title)}</title><rect width="${width}" height="${height}" fill="#fff"/>${parts.join('')}</svg>`
}

/** An SVG as the address of an image. */
export const pictureAddress = (text: string): string =>
  `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`
