// @vitest-environment node
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Leader } from '../../../src/engine/leader'
import { writeFormula } from '../../../src/documents'
import type { Column } from '../../../src/features/bench/grid'
import { copyRows, pasteRows } from '../../../src/features/bench/grid'
import { anyLeader, soundLeader, withPiece } from '../../engine/build'

const UNITS = { diameter: 'in', length: 'in' } as const
const start = (row: number, column: Column = 'part') => ({ row, column })
const paste = (text: string, at = start(0), leader = soundLeader()) =>
  pasteRows(leader, text, at, UNITS)

const written = (leader: Leader) => leader.segments.map(rowOf)
const rowOf = ({ part, material, diameter, length, joint }: Leader['segments'][number]) =>
  [part, material, diameter.text, length.text, joint.knot].join(' | ')

describe('copyRows', () => {
  it('writes a heading and the rows asked for, in names and as typed', () => {
    expect(copyRows(soundLeader(), 5, 6).split('\n')).toEqual([
      'part\tmaterial\tdiameter\tlength\tknot',
      "Mid-section\tSupple nylon\t.008 in\t7 in\tTriple surgeon's",
      "Tippet\tSupple nylon\t5X\t26 in\tTriple surgeon's",
    ])
  })

  it('gives a bare number the unit that its field had', () => {
    const bare = { si: 0.15e-3, text: '0,15', unit: 'mm', bare: true } as const
    const text = copyRows(withPiece(soundLeader(), 6, { diameter: bare }), 6, 6)
    expect(text.split('\n')[1]?.split('\t')[2]).toBe('0,15 mm')
  })
})

describe('pasteRows', () => {
  it('brings back what copyRows took out, for any leader', () => {
    fc.assert(
      fc.property(anyLeader, (leader) => {
        const text = copyRows(leader, 0, leader.segments.length - 1)
        const { leader: back, problems } = paste(text, start(0), leader)
        expect(problems).toEqual([])
        expect(written(back)).toEqual(written(leader))
      }),
    )
  })

  it('takes columns in the order of the heading, and passes by those it does not know', () => {
    const { leader, problems } = paste('length\tremark\tDiameter\n30 cm\tred\t0.4 mm', start(1))
    expect(problems).toEqual([])
    expect(written(leader)[1]).toBe('butt | nylon-supple | 0.4 mm | 30 cm | surgeons-triple')
  })

  it('without a heading runs to the right from the cell it was pasted at', () => {
    const { leader, problems } = paste('.014 in\t11 in\n.0125 in\t10 in', start(2, 'diameter'))
    expect(problems).toEqual([])
    expect(written(leader).slice(2, 4)).toEqual([
      'mid-section | nylon-supple | .014 in | 11 in | surgeons-triple',
      'mid-section | nylon-supple | .0125 in | 10 in | surgeons-triple',
    ])
    expect(written(leader)[4]).toBe(written(soundLeader())[4])
  })

  it('does not run beyond the last column', () => {
    const { leader, problems } = paste('9 in\tblood\tand a remark', start(3, 'length'))
    expect(problems).toEqual([])
    expect(written(leader)[3]).toBe('mid-section | nylon-supple | .012 in | 9 in | blood')
  })

  it('goes on past the end with pieces like the last, tied by blood knots', () => {
    const { leader, problems } = paste('6X\t20 in\n7X\t18 in\n8X\t16 in', start(6, 'diameter'))
    expect(problems).toEqual([])
    expect(written(leader).slice(6)).toEqual([
      'tippet | nylon-supple | 6X | 20 in | surgeons-triple',
      'tippet | nylon-supple | 7X | 18 in | blood',
      'tippet | nylon-supple | 8X | 16 in | blood',
    ])
    expect(new Set(leader.segments.map(({ key }) => key)).size).toBe(9)
  })

  it('reads bare numbers in the units of the table and keeps them as typed', () => {
    const { leader } = paste('0,45\t30', start(0, 'diameter'), soundLeader())
    const metric = pasteRows(soundLeader(), '0,45\t30', start(0, 'diameter'), {
      diameter: 'mm',
      length: 'cm',
    })
    expect(leader.segments[0]?.length).toMatchObject({ text: '30', unit: 'in', bare: true })
    expect(metric.leader.segments[0]?.diameter).toMatchObject({ text: '0,45', unit: 'mm' })
    expect(metric.leader.segments[0]?.diameter.si).toBeCloseTo(0.45e-3, 9)
    expect(metric.leader.segments[0]?.length.si).toBeCloseTo(0.3, 9)
  })

  it.each([
    ['part', 'middle', 'Butt, Mid-section'],
    ['material', 'string', 'Stiff nylon'],
    ['knot', 'granny', 'Blood knot'],
    ['diameter', 'thick', '5X, .006 in'],
    ['diameter', '20 lb', '.016 in (estimate)'],
    ['length', 'some', '36 in'],
  ] as const)(
    'says of a wrong %s "%s" in its line what it takes, and leaves the cell',
    (column, bad, takes) => {
      const { leader, problems } = paste(`${column}\n${bad}`, start(4))
      expect(problems).toHaveLength(1)
      expect(problems[0]).toContain(bad)
      expect(problems[0]).toContain(takes)
      expect(written(leader)).toEqual(written(soundLeader()))
    },
  )

  it('names the line and keeps the good cells beside a bad one', () => {
    const { leader, problems } = paste('.016 in\t11 in\nthick\t10 in', start(2, 'diameter'))
    expect(problems).toEqual([expect.stringMatching(/\b2\b.*thick/)])
    expect(written(leader)[3]).toBe(
      'mid-section | nylon-supple | .012 in | 10 in | surgeons-triple',
    )
  })

  it('leaves a cell as it was where the pasted one is empty', () => {
    const { leader, problems } = paste('\t\t.016 in\t\t\n', start(2))
    expect(problems).toEqual([])
    expect(written(leader)[2]).toBe('mid-section | nylon-supple | .016 in | 9 in | surgeons-triple')
  })

  it('reads the line ends of other systems', () => {
    expect(
      written(paste('.016 in\t11 in\r\n.013 in\t10 in\r\n', start(2, 'diameter')).leader),
    ).toEqual(written(paste('.016 in\t11 in\n.013 in\t10 in', start(2, 'diameter')).leader))
  })

  it('touches nothing but the cells: notes, purpose and outfit stay', () => {
    const leader = { ...soundLeader(), notes: 'mine' }
    const { leader: next } = paste('Butt', start(2), leader)
    expect(writeFormula({ ...next, segments: leader.segments })).toEqual(writeFormula(leader))
  })
})
