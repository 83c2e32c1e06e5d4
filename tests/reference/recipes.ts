/**
 * Published leader recipes, named by what they are and cited here alone, butt to tippet, as [length, diameter] as printed. Lengths in inches unless
 * written otherwise. They are for tests only. `total` is what the pieces add up to by hand, in inches;
 * `stated` is the total its own source prints, where it prints one.
 */
import type { Part, Purpose } from '../../src/engine/leader'

export interface RecipePiece {
  readonly length: string
  readonly diameter: string
  readonly part: Part
  readonly material: string
  /** A size or strength printed beside it. */
  readonly label?: string
  readonly strength?: string
}

export interface Recipe {
  readonly id: string
  readonly source: string
  readonly purpose: Purpose
  readonly pieces: readonly RecipePiece[]
  readonly total_in: number
  readonly stated_in?: number
  /** Smallest ratio of next to previous diameter, to two places, by hand. */
  readonly smallestRatio: number
}

/** Pieces written `20@15`: inches at thousandths of an inch. */
function pieces(part: Part, material: string, ...texts: readonly string[]): RecipePiece[] {
  return texts.map((text) => {
    const [length = '', thou = ''] = text.split('@')
    return { length: `${length} in`, diameter: `${thou} thou`, part, material }
  })
}

const hard = 'nylon-stiff'
const soft = 'nylon-supple'

export const RECIPES: readonly Recipe[] = [
  {
    id: 'slack-line 4X',
    source: 'G. Harvey, supplement to Fly Fisherman, 1986; tippet at its shortest',
    purpose: 'slack-line-dry',
    pieces: [
      ...pieces('butt', hard, '10@17', '20@15'),
      ...pieces('mid-section', hard, '20@13', '20@11'),
      ...pieces('mid-section', soft, '12@9', '18@8'),
      ...pieces('tippet', soft, '22@7'),
    ],
    total_in: 122,
    smallestRatio: 0.82,
  },
  {
    id: 'slack-line all soft',
    source: 'G. Harvey, Fly Fisherman (later version); pieces above the tip, at their shortest',
    purpose: 'slack-line-dry',
    pieces: [
      ...pieces('butt', soft, '18@15'),
      ...pieces('mid-section', soft, '18@13', '18@11', '18@9'),
    ],
    total_in: 72,
    smallestRatio: 0.82,
  },
  {
    id: 'uni-body dry',
    source: 'G. Borger, uni-body leader; tippet of 24 in, one size below the body',
    purpose: 'general-dry',
    pieces: [
      ...pieces('butt', soft, '48@20'),
      ...pieces('mid-section', soft, '12@13', '48@10'),
      ...pieces('tippet', soft, '24@8'),
    ],
    total_in: 132,
    smallestRatio: 0.65,
  },
  {
    id: 'uni-body nymph',
    source: 'G. Borger, uni-body leader; tippet of 8 in, one size below the body',
    purpose: 'nymph',
    pieces: [
      ...pieces('butt', soft, '48@20'),
      ...pieces('mid-section', soft, '12@13', '48@9'),
      ...pieces('tippet', soft, '8@8'),
    ],
    total_in: 116,
    smallestRatio: 0.65,
  },
  {
    id: 'guide 9 ft 4X',
    source: 'Kashner, guide column, 2012: 9 ft 4X',
    purpose: 'general-dry',
    pieces: [
      ...pieces('butt', soft, '36@19', '16@17'),
      ...pieces('mid-section', soft, '12@15', '6@13', '6@11', '6@9'),
      ...pieces('tippet', soft, '26@7'),
    ],
    total_in: 108,
    stated_in: 108,
    smallestRatio: 0.78,
  },
  {
    id: 'nine and a half feet, labelled 6X',
    source: 'Lajoie 9 1/2 ft recipe; its .006 tippet is labelled 6X; tippet at its shortest',
    purpose: 'slack-line-dry',
    pieces: [
      ...pieces('butt', soft, '20@15'),
      ...pieces('mid-section', soft, '20@13', '16@11', '12@9', '12@8', '12@7'),
      { length: '22 in', diameter: '.006 in', part: 'tippet', material: soft, label: '6X' },
    ],
    total_in: 114,
    stated_in: 114,
    smallestRatio: 0.82,
  },
  {
    id: 'streamer',
    source: 'Letherman, streamer article; the pieces above its tippet',
    purpose: 'streamer',
    pieces: [...pieces('butt', soft, '36@25', '36@20'), ...pieces('mid-section', soft, '12@15')],
    total_in: 84,
    smallestRatio: 0.75,
  },
  {
    id: 'tight-line, metric',
    source: 'Droz tight-line leader, metric; the pieces above its tippet',
    purpose: 'tight-line-nymph',
    pieces: [
      { length: '400 cm', diameter: '.25 mm', part: 'butt', material: soft },
      { length: '50 cm', diameter: '.22 mm', part: 'mid-section', material: soft },
      { length: '50 cm', diameter: '.20 mm', part: 'sighter', material: soft },
    ],
    total_in: 500 / 2.54,
    stated_in: 500 / 2.54,
    smallestRatio: 0.88,
  },
  {
    id: 'sinking, winter steelhead',
    source: 'winter steelhead sinking leader column; each piece at its shortest',
    purpose: 'sinking-line',
    pieces: [
      ...pieces('butt', soft, '12@30'),
      ...pieces('mid-section', soft, '12@20'),
      ...pieces('tippet', soft, '12@11'),
    ],
    total_in: 36,
    smallestRatio: 0.55,
  },
  {
    id: 'classic 60/20/20, 9 ft 4X',
    source: 'mid-century 60/20/20 leader, from memory',
    purpose: 'general-dry',
    pieces: [
      ...pieces('butt', soft, '36@21', '16@19', '12@17'),
      ...pieces('mid-section', soft, '6@15', '6@13', '6@11', '6@9'),
      ...pieces('tippet', soft, '20@7'),
    ],
    total_in: 108,
    stated_in: 108,
    smallestRatio: 0.78,
  },
]

/** A recipe printed in pounds: no diameter is known until the angler says one. */
export interface PoundRecipe {
  readonly id: string
  readonly source: string
  readonly purpose: Purpose
  readonly pieces: readonly (readonly [length_in: number, pounds: string, part: Part])[]
  readonly total_in: number
}

export const POUND_RECIPES: readonly PoundRecipe[] = [
  {
    id: 'flats 60/20/20',
    source: "A. J. McClane's 60/20/20, worked at 9 ft",
    purpose: 'salt-water',
    pieces: [
      [38, '30 lb', 'butt'],
      [25, '25 lb', 'butt'],
      [11, '20 lb', 'mid-section'],
      [11, '15 lb', 'mid-section'],
      [22, '12 lb', 'tippet'],
    ],
    total_in: 107,
  },
  {
    id: 'halves, 9 ft',
    source: 'L. Kreh, halves, 9 ft for salt-water flats',
    purpose: 'salt-water',
    pieces: [
      [48, '50 lb', 'butt'],
      [24, '30 lb', 'mid-section'],
      [12, '25 lb', 'mid-section'],
      [24, '15 lb', 'tippet'],
    ],
    total_in: 108,
  },
  {
    id: 'halving, 7-8 weight',
    source: 'Thomas, halving rule, salt-water column; tippet of 12 lb',
    purpose: 'salt-water',
    pieces: [
      [72, '40 lb', 'butt'],
      [36, '30 lb', 'butt'],
      [18, '20 lb', 'mid-section'],
      [9, '16 lb', 'mid-section'],
      [48, '12 lb', 'tippet'],
    ],
    total_in: 183,
  },
  {
    id: 'pike, 7 ft',
    source: 'pike leader column, 7 ft of hard nylon and a bite piece',
    purpose: 'bite-tippet',
    pieces: [
      [18, '50 lb', 'butt'],
      [18, '40 lb', 'butt'],
      [12, '30 lb', 'mid-section'],
      [12, '20 lb', 'mid-section'],
      [12, '15 lb', 'tippet'],
      [12, '25 lb', 'bite'],
    ],
    total_in: 84,
  },
  {
    id: 'tarpon',
    source: 'tarpon column, 10 ft; class piece of 25 lb, bite piece of 60 lb',
    purpose: 'bite-tippet',
    pieces: [
      [72, '60 lb', 'butt'],
      [24, '25 lb', 'tippet'],
      [24, '60 lb', 'bite'],
    ],
    total_in: 120,
  },
  {
    id: 'stepped wet fly',
    source: 'British stepped wet-fly leader, 12 ft',
    purpose: 'still-water',
    pieces: [
      [48, '10 lb', 'butt'],
      [48, '8 lb', 'mid-section'],
      [48, '6 lb', 'tippet'],
    ],
    total_in: 144,
  },
]
