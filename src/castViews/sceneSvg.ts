/** A moment of casts as an SVG file: for taking out, and drawn frame by frame for a film. Pure. */
import type { Extent } from './scene'
import type { Shown } from './shown'
import { frameAt, polylines } from './scene'
import { DASHES, LETTERS } from './shown'

/** Ink of each leader on white paper, as in the light look. */
const PAPER_INKS = ['#1d282e', '#155e6d', '#9a5b00', '#7a3a8f'] as const
const LABEL_PX = 15

interface Size {
  readonly width: number
  readonly height: number
}

/** The size of a picture `width` pixels wide that holds the extent to scale, in even pixels as films want them. */
export function pictureSize({ left, right, bottom, top }: Extent, width: number): Size {
  const height = (width * (top - bottom)) / (right - left)
  return { width, height: 2 * Math.round(height / 2) }
}

/** Rod tip to water with one to four casts at a time (s), `width` pixels wide. */
export function sceneSvg(
  flights: readonly Shown[],
  extent: Extent,
  time_s: number,
  width: number,
): string {
  const { height } = pictureSize(extent, width)
  const { left, right, bottom, top } = extent
  const scale = (right - left) / width
  const marks = Array.from({ length: Math.floor(right / 2) + 1 }, (_, k) => 2 * k)
  const text = (x: number, y: number, words: string, fill: string) =>
    `<text x="${x}" y="${y}" font-size="${LABEL_PX * scale}" font-family="sans-serif" text-anchor="middle" fill="${fill}">${words}</text>`
  const tip = flights[0]?.input.cast.tipHeight_m ?? 2
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="${left} ${-top} ${right - left} ${top - bottom}">`,
    `<rect x="${left}" y="${-top}" width="100%" height="100%" fill="#fff"/>`,
    `<rect x="${left}" y="0" width="100%" height="${-bottom}" fill="#d9e8e8"/>`,
    ...marks.map((m) => text(m, -bottom - 4 * scale, `${m} m`, '#566066')),
    `<path d="M${left} ${-tip * 0.55} 0 ${-tip}" stroke="#1d282e" stroke-width="${3 * scale}"/>`,
    ...flights.map((flight, i) => castSvg(flight, i, time_s, scale, flights.length > 1)),
    text(right - 40 * scale, -top + 24 * scale, `${time_s.toFixed(2)} s`, '#1d282e'),
    '</svg>',
  ].join('')
}

function castSvg(
  { flown }: Shown,
  i: number,
  time_s: number,
  scale: number,
  hasLetter: boolean,
): string {
  const { frames } = flown
  const frame = frames[frameAt(frames, time_s)]
  if (!frame) return ''
  const { line, leader } = polylines(frame, flown.buttNode)
  const [ink, dash] = [PAPER_INKS[i] ?? PAPER_INKS[0], DASHES[i] ?? '']
  const dashes =
    dash &&
    ` stroke-dasharray="${dash
      .split(' ')
      .map((n) => Number(n) * scale)
      .join(' ')}"`
  const strand = (points: string, px: number, opacity: number) =>
    `<polyline points="${points}" fill="none" stroke="${ink}" stroke-opacity="${opacity}" stroke-width="${px * scale}" stroke-linejoin="round"${dashes}/>`
  const last = frame.x.length - 1
  const [x, y] = [frame.x[last] ?? 0, -(frame.y[last] ?? 0)]
  const fly = `<circle cx="${x}" cy="${y}" r="${4 * scale}" fill="${ink}"/>`
  const letter = hasLetter
    ? `<text x="${x}" y="${y - 8 * scale}" font-size="${LABEL_PX * scale}" font-family="sans-serif" font-weight="bold" text-anchor="middle" fill="${ink}">${LETTERS[i]}</text>`
    : ''
  return strand(line, 3, 0.55) + strand(leader, 2, 1) + fly + letter
}
