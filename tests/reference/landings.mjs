/**
 * The casts of reference that are judged by how they come down: thrown level, up and down, with too little power,
 * enough and too much. The leaders are figures of the kind that ships, our own; how fast the drag area of hair and
 * hackle falls with speed is an estimate. SI.
 */
import { CAST, STANDARD, level, lineOf } from './cases.mjs'

const INCH = 0.0254
const [STIFF, SUPPLE] = [3e9, 2e9]

/** Pieces from the butt, each by diameter and length in inches; the last `soft` of them of the supple nylon. */
const tied = (pieces, soft) =>
  pieces.map(([thick, long], i) =>
    level(long * INCH, thick * INCH, i < pieces.length - soft ? STIFF : SUPPLE),
  )

/** What the knots of such leaders weigh, a few milligrams in the butt and next to nothing at the tippet. */
const KNOTS = [
  { joint: 0, mass_kg: 8e-6 },
  { joint: 1, mass_kg: 6e-6 },
  { joint: 3, mass_kg: 3e-6 },
]

const DRY_9FT_5X = {
  line: lineOf(1.26e-3, 0.84e-3),
  segments: tied(
    [
      [0.021, 36],
      [0.019, 14],
      [0.0165, 9],
      [0.0135, 8],
      [0.011, 7],
      [0.0085, 8],
      [0.006, 26],
    ],
    2,
  ),
  knots: KNOTS,
  fly: { mass_kg: 34e-6, dragArea_m2: 62e-6, dragExponent: 0.35 },
}

const HOPPER_8FT_2X = {
  line: lineOf(1.45e-3, 0.98e-3),
  segments: tied(
    [
      [0.026, 38],
      [0.0225, 14],
      [0.0195, 8],
      [0.0165, 6],
      [0.014, 6],
      [0.0115, 6],
      [0.009, 18],
    ],
    2,
  ),
  knots: KNOTS,
  fly: { mass_kg: 210e-6, dragArea_m2: 280e-6, dragExponent: 0 },
}

const STREAMER_7FT_1X = {
  line: lineOf(1.45e-3, 0.98e-3),
  segments: [
    ...tied(
      [
        [0.026, 30],
        [0.022, 12],
        [0.018, 10],
        [0.014, 8],
      ],
      0,
    ),
    level(24 * INCH, 0.01 * INCH, 2.5e9, 1780),
  ],
  knots: KNOTS,
  fly: { mass_kg: 620e-6, dragArea_m2: 95e-6, dragExponent: 0 },
}

const SMALL_DRY_12FT_6X = {
  line: lineOf(1.13e-3, 0.8e-3),
  segments: tied(
    [
      [0.018, 16],
      [0.016, 20],
      [0.014, 20],
      [0.012, 18],
      [0.01, 14],
      [0.008, 10],
      [0.0065, 8],
      [0.005, 38],
    ],
    4,
  ),
  knots: KNOTS,
  fly: { mass_kg: 15e-6, dragArea_m2: 30e-6, dragExponent: 0.35 },
}

const TUFT_9FT = {
  line: lineOf(1.26e-3, 0.84e-3),
  segments: tied(
    [
      [0.021, 38],
      [0.018, 14],
      [0.0155, 10],
      [0.013, 9],
      [0.011, 7],
      [0.009, 6],
      [0.007, 24],
    ],
    3,
  ),
  knots: KNOTS,
  fly: { mass_kg: 60e-6, dragArea_m2: 120e-6, dragExponent: 0.35 },
}

const RIGS = {
  'a dry on 9 ft 5X': DRY_9FT_5X,
  'a hopper on 8 ft 2X': HOPPER_8FT_2X,
  'a streamer on 7 ft 1X': STREAMER_7FT_1X,
  'a small dry on 12 ft 6X': SMALL_DRY_12FT_6X,
  'a tuft on a 9 ft class leader': TUFT_9FT,
}

/** Which rig, how fast (m/s), and aimed how far above level (degrees). */
const THROWN = [
  ['a dry on 9 ft 5X', 5, 0],
  ['a dry on 9 ft 5X', 6.6, 0],
  ['a dry on 9 ft 5X', 8, 0],
  ['a dry on 9 ft 5X', 7, 4],
  ['a dry on 9 ft 5X', 12, 12],
  ['a dry on 9 ft 5X', 10.5, -4],
  ['a dry on 9 ft 5X', 15, -8],
  ['a hopper on 8 ft 2X', 9, 0],
  ['a hopper on 8 ft 2X', 14, 4],
  ['a hopper on 8 ft 2X', 16, -4],
  ['a streamer on 7 ft 1X', 8, 12],
  ['a streamer on 7 ft 1X', 12, 0],
  ['a small dry on 12 ft 6X', 9, 0],
  ['a small dry on 12 ft 6X', 12, 8],
  ['a tuft on a 9 ft class leader', 8, 8],
  ['a tuft on a 9 ft class leader', 12, 4],
  ['a tuft on a 9 ft class leader', 14, -4],
]

const aimed = (deg) => (deg === 0 ? 'level' : `${Math.abs(deg)} degrees ${deg > 0 ? 'up' : 'down'}`)

export const LANDINGS = THROWN.map(([rig, lineSpeed_m_s, launchAngle_deg]) => ({
  name: `${rig} at ${lineSpeed_m_s} m/s, ${aimed(launchAngle_deg)}`,
  case: {
    ...STANDARD,
    ...RIGS[rig],
    cast: { ...CAST, lineSpeed_m_s, launchAngle_deg },
    endTime_s: 6,
  },
}))
