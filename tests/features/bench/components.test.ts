import { afterEach, describe, expect, it, vi } from 'vitest'
import type { DOMWrapper, VueWrapper } from '@vue/test-utils'
import { flushPromises } from '@vue/test-utils'
import type { ChartData, ChartOptions } from 'chart.js'
import type { Judgement } from '../../../src/engine/delivery'
import type { Yardstick } from '../../../src/stores/benchDelivery'
import { madeJudgement } from '../../engine/delivery/made'
import type { Leader } from '../../../src/engine/leader'
import { profileSeries } from '../../../src/charts'
import { evaluate } from '../../../src/engine/evaluate'
import { tippetIndex, totalLength_m } from '../../../src/engine/leader'
import { stand } from '../../support/fixture'
import { leaderOf, lineOf, q, size, soundLeader, withPiece } from '../../engine/build'
import { COLOURS, fixtures, givenOf, piece, spoiled, UNITS } from './fixtures'

const { chart } = vi.hoisted(() => ({ chart: { name: 'ScatterStub', props: ['data', 'options'] } }))
// Happy-dom has no canvas: here the data are looked at that the chart is given.
vi.mock('vue-chartjs', () => ({ Scatter: { ...chart, template: '<i></i>' } }))

const standing: VueWrapper[] = []
afterEach(() => {
  for (const wrapper of standing.splice(0)) wrapper.unmount()
})

function show(file: string, patch: object = {}): VueWrapper {
  const fixture = fixtures[file]
  if (!fixture) throw new Error(`no fixture for ${file}`)
  const wrapper = stand(fixture, patch)
  standing.push(wrapper)
  return wrapper
}

/** The leaders that were asked for, the last one last. */
function edits(wrapper: VueWrapper): Leader[] {
  return (wrapper.emitted('edit') ?? []).map(([, next]) => next as Leader)
}

function lastEdit(wrapper: VueWrapper): Leader {
  const last = edits(wrapper).at(-1)
  if (!last) throw new Error('nothing was edited')
  return last
}

const named = (wrapper: VueWrapper, label: string) => wrapper.get(`[aria-label="${label}"]`)

function button(wrapper: VueWrapper, text: string): DOMWrapper<HTMLButtonElement> {
  const found = wrapper.findAll('button').find((one) => one.text() === text)
  if (!found) throw new Error(`no button "${text}"`)
  return found
}

async function write(wrapper: VueWrapper, label: string, text: string) {
  const field = named(wrapper, label)
  await field.setValue(text)
  await field.trigger('blur')
}

describe('BenchTools', () => {
  it('scales the leader to a new total', async () => {
    const tools = show('BenchTools.vue')
    await write(tools, 'Scale the leader to this total', '10 ft')
    expect(totalLength_m(lastEdit(tools))).toBeCloseTo(3.048, 6)
  })

  it('sets the tippet and steps the taper anew', async () => {
    const tools = show('BenchTools.vue')
    await write(tools, 'Set the tippet and step the taper above it anew', '3X')
    const next = lastEdit(tools)
    expect(next.segments[tippetIndex(next)]?.diameter.text).toBe('3X')
    expect(next.segments[0]).toEqual(soundLeader().segments[0])
  })

  it('offers no tippet where there is none', () => {
    const leader = leaderOf([{ length: '2 m', diameter: '.02 in', part: 'butt' }])
    expect(show('BenchTools.vue', { leader }).text()).not.toContain('Re-step')
  })

  it('asks for the rows and for the figures', async () => {
    const tools = show('BenchTools.vue')
    await button(tools, 'Copy rows').trigger('click')
    await button(tools, 'All figures').trigger('click')
    expect(tools.emitted()).toMatchObject({ copy: [[]], figures: [[]] })
  })
})

describe('FiguresBand', () => {
  it('shows the shares, also as a bar to scale', () => {
    const band = show('FiguresBand.vue')
    // 50, 32 and 26 of 108 inches.
    expect(band.get('.shares').text()).toBe('Butt 46 %Middle 30 %Tippet 24 %')
    const growth = band
      .findAll('.bar span')
      .map((one) => (one.element as HTMLElement).style.flexGrow)
    expect(growth.map((g) => Math.round(Number(g) * 108))).toEqual([50, 32, 26])
  })
})

describe('FiguresBand and the delivery', () => {
  const itemOf = (judgement: Judgement, yardstick?: Yardstick) => {
    const item = show('FiguresBand.vue', { judgement, yardstick }).findAll('.item')[2]
    return {
      name: item?.get('dt').text(),
      figure: item?.get('.figure').text(),
      rest: item?.get('.rest').text() ?? '',
    }
  }

  it('says nothing before the casts are in but that they are being thrown', () => {
    expect(itemOf({ kind: 'checking' })).toMatchObject({ figure: 'Checking' })
    expect(itemOf({ kind: 'not-flown', reason: 'torn' })).toMatchObject({
      figure: 'Not flown',
      rest: 'The reason: torn.',
    })
  })

  it('says the state, how many casts, power and aim, and how it lies and lands', () => {
    const { figure, rest } = itemOf(madeJudgement())
    expect(figure).toBe('Goes over easily: parachute dry 18')
    expect(rest).toContain('lays out 70 of 100 casts; 85 come over, recoil left aside')
    expect(rest).toContain('Aim about 7 ft above the water (level) and ease off to 9 m/s')
    expect(rest).toContain('90 % of its length out; the fly comes down softly')
  })

  it.each([
    ['easier', 'less power than'],
    ['as', 'as much power as'],
    ['harder', 'more power than'],
  ] as const)('ranked %s than a yardstick it asks for %s it', (rank, words) => {
    expect(itemOf(madeJudgement(), { name: 'Mine', rank }).rest).toContain(`${words} “Mine”`)
  })
})

describe('FiguresDialog', () => {
  it('has a row for every piece and for every joint, each as wide as its head', () => {
    const dialog = show('FiguresDialog.vue')
    const [pieces, joints] = dialog.findAll('table')
    expect(pieces?.findAll('tbody tr')).toHaveLength(7)
    expect(joints?.findAll('tbody tr')).toHaveLength(8)
    for (const table of [pieces, joints]) {
      const heads = table?.findAll('th').length
      expect(table?.findAll('tbody tr').every((row) => row.findAll('td').length === heads)).toBe(
        true,
      )
    }
  })

  it('has no figure that is no number', () => {
    const cells = show('FiguresDialog.vue')
      .findAll('td')
      .map((one) => one.text())
    expect(cells.filter((text) => /NaN|undefined|Infinity/.test(text) || text === '')).toEqual([])
  })

  it('says which line it reckons with, and nothing of one that is not chosen', () => {
    expect(show('FiguresDialog.vue').text()).toContain('first 30 ft')
    const { leader, evaluation, say } = givenOf({ ...soundLeader(), outfit: {} })
    expect(show('FiguresDialog.vue', { leader, evaluation, say }).text()).not.toContain(
      'first 30 ft',
    )
  })

  it('tells when it is closed', async () => {
    const dialog = show('FiguresDialog.vue')
    await dialog.get('header button').trigger('click')
    expect(dialog.emitted('close')).toHaveLength(1)
  })
})

describe('FindingsPanel', () => {
  const bad = givenOf(spoiled)
  const panelOf = (leader: Leader) => {
    const { evaluation, say } = givenOf(leader)
    return show('FindingsPanel.vue', { report: evaluation.checks, leader, say })
  }

  it('says what it looked at where nothing is wrong', () => {
    const text = show('FindingsPanel.vue').text()
    expect(text).toContain('Checked and in order: size of steps')
    expect(text).toContain('Not checked: record rules, because the leader has no shock piece')
  })

  it('says of every finding what, where, how much, what is usual and by whose word', () => {
    const panel = panelOf(spoiled)
    const items = panel.findAll('li')
    expect(items).toHaveLength(bad.evaluation.checks.findings.length)
    const first = items[0]
    expect(first?.classes()).toContain('fault')
    expect(first?.text()).toContain('Fault: Too short to tie')
    expect(first?.text()).toContain('Piece 4, mid-section')
    expect(first?.text()).toContain('Here: 0.3 in.')
    expect(first?.text()).toMatch(/Usual: at least [\d.]+ in\./)
    expect(first?.get('details').text()).not.toBe('Source')
  })

  it('offers the remedies of a finding and asks for the one pressed', async () => {
    const panel = panelOf(spoiled)
    const offered = bad.evaluation.checks.findings[0]?.remedies ?? []
    expect(offered.length).toBeGreaterThan(0)
    const buttons = panel.findAll('li')[0]?.findAll('.remedies button') ?? []
    expect(buttons).toHaveLength(offered.length)
    await buttons[0]?.trigger('click')
    expect(panel.emitted('apply')?.[0]).toMatchObject([buttons[0]?.text(), { id: offered[0]?.id }])
  })

  it('asks for the place of a finding and for the limits', async () => {
    const panel = panelOf(spoiled)
    await panel.get('li .place').trigger('click')
    await button(panel, 'Limits').trigger('click')
    expect(panel.emitted('point')?.[0]?.[0]).toMatchObject({ place: { kind: 'segment', index: 3 } })
    expect(panel.emitted('limits')).toHaveLength(1)
  })

  it('is told aloud when it changes', () => {
    expect(panelOf(spoiled).find('[aria-live="polite"] li').exists()).toBe(true)
  })
})

describe('LeaderDrawing', () => {
  it('draws a bar for each piece, a knot for each joint, and the fly where there is one', () => {
    const drawing = show('LeaderDrawing.vue')
    expect(drawing.findAll('.bar')).toHaveLength(7)
    expect(drawing.findAll('.knot')).toHaveLength(8)
    expect(drawing.find('.fly').exists()).toBe(true)
    const bare = { ...soundLeader(), tip: { joint: soundLeader().tip.joint } }
    expect(show('LeaderDrawing.vue', { leader: bare }).find('.fly').exists()).toBe(false)
  })

  it('has a handle for each diameter and each length that says what it stands at', () => {
    const drawing = show('LeaderDrawing.vue')
    const handle = named(drawing, 'Length of piece 2, in the drawing')
    expect(drawing.findAll('[role="slider"]')).toHaveLength(14)
    expect(handle.attributes('aria-valuetext')).toBe('12 in')
  })

  it.each([
    ['Diameter of piece 3, in the drawing', 'ArrowUp', 'diameter', '.0155 in'],
    ['Diameter of piece 3, in the drawing', 'ArrowDown', 'diameter', '.0145 in'],
    ['Length of piece 3, in the drawing', 'ArrowRight', 'length', '9.5 in'],
    ['Length of piece 3, in the drawing', 'ArrowLeft', 'length', '8.5 in'],
  ] as const)('%s, by %s, moves one notch', async (label, key, field, text) => {
    const drawing = show('LeaderDrawing.vue')
    await named(drawing, label).trigger('keydown', { key })
    expect(lastEdit(drawing).segments[2]?.[field].text).toBe(text)
  })

  it('moves by hundredths of a millimetre and centimetres for metric readers', async () => {
    const leader = withPiece(soundLeader(), 2, { diameter: size('0.4 mm'), length: q('30 cm') })
    const units = { diameter: 'mm', length: 'cm', force: 'kg', speed: 'm/s' } as const
    const drawing = show('LeaderDrawing.vue', { ...givenOf(leader), units })
    await named(drawing, 'Diameter of piece 3, in the drawing').trigger('keydown', {
      key: 'ArrowUp',
    })
    await named(drawing, 'Length of piece 3, in the drawing').trigger('keydown', {
      key: 'ArrowRight',
    })
    expect(edits(drawing).map(({ segments }) => segments[2])).toMatchObject([
      { diameter: { text: '0.41 mm' } },
      { length: { text: '31 cm' } },
    ])
  })

  it('never lets a diameter or a length go to nothing', async () => {
    const leader = leaderOf([
      { length: '1 m', diameter: '.02 in', part: 'butt' },
      { length: '0.5 in', diameter: '.001 in', part: 'tippet' },
    ])
    const drawing = show('LeaderDrawing.vue', givenOf(leader))
    await named(drawing, 'Diameter of piece 2, in the drawing').trigger('keydown', {
      key: 'ArrowDown',
    })
    await named(drawing, 'Length of piece 2, in the drawing').trigger('keydown', {
      key: 'ArrowLeft',
    })
    expect(edits(drawing)).toEqual([])
  })

  it('merges the edits of one drag and ends the merge when it is let go', async () => {
    Object.assign(Element.prototype, { setPointerCapture: () => undefined })
    const drawing = show('LeaderDrawing.vue')
    await named(drawing, 'Diameter of piece 1, in the drawing').trigger('pointerdown', {
      clientY: 60,
      pointerId: 1,
    })
    await drawing.trigger('pointermove', { clientY: 58 })
    await drawing.trigger('pointermove', { clientY: 54 })
    await drawing.trigger('pointerup')
    await drawing.trigger('pointermove', { clientY: 40 })
    const asked = drawing.emitted('edit') ?? []
    expect(asked).toHaveLength(2)
    expect(new Set(asked.map(([, , key]) => key))).toEqual(new Set(['drag-diameter-0']))
    expect(lastEdit(drawing).segments[0]?.diameter.si).toBeGreaterThan(size('.020 in').si)
    expect(drawing.emitted('endMerge')).toHaveLength(1)
  })

  it('draws what hangs on a piece and names it', () => {
    const hung = withPiece(soundLeader(), 6, {
      attachments: [{ kind: 'dropper' }, { kind: 'indicator' }, { kind: 'ring' }],
    })
    const titles = show('LeaderDrawing.vue', givenOf(hung)).findAll('.hanging title')
    expect(titles.map((one) => one.text())).toEqual(['dropper', 'indicator', 'ring'])
  })

  it('marks the piece under the hairline', () => {
    const drawing = show('LeaderDrawing.vue', { current: 2 })
    expect(drawing.get('.band').attributes('x')).toBe(drawing.findAll('.bar')[2]?.attributes('x'))
  })
})

describe('LimitsDialog', () => {
  it('shows each limit for the purpose with its source', () => {
    const rows = show('LimitsDialog.vue').findAll('tbody tr')
    expect(rows).toHaveLength(22)
    expect(rows.every((row) => row.get('.source').text() !== '')).toBe(true)
  })

  it('sets a percentage as a share and a length in its unit', async () => {
    const dialog = show('LimitsDialog.vue')
    await named(dialog, 'Share of butt, at least').setValue('55')
    await write(dialog, 'Shortest tippet', '50 cm')
    expect(dialog.emitted('set')).toEqual([
      ['buttShareLow', 0.55],
      ['tippetShortest', expect.closeTo(0.5, 9)],
    ])
  })

  it.each(['', 'much', '-3'])('does not take "%s" for a percentage', async (text) => {
    const dialog = show('LimitsDialog.vue')
    const field = named(dialog, 'Share of butt, at least')
    const before = (field.element as HTMLInputElement).value
    await field.setValue(text)
    expect(dialog.emitted()).not.toHaveProperty('set')
    expect((field.element as HTMLInputElement).value).toBe(before)
  })

  it('marks an own limit and lets go of it', async () => {
    const dialog = show('LimitsDialog.vue', { own: { tippetShortest: 0.4 } })
    expect(dialog.text()).toContain('your own limit')
    await button(dialog, 'Back to usual').trigger('click')
    expect(dialog.emitted('set')).toEqual([['tippetShortest', undefined]])
  })

  it('says where a rule does not apply', () => {
    expect(show('LimitsDialog.vue', { purpose: 'tight-line-nymph' }).text()).toContain(
      'not for this purpose',
    )
  })
})

describe('OutfitBar', () => {
  it('takes a line designation and keeps what was known of its tip', async () => {
    const leader = { ...soundLeader(), outfit: { lineTip: q('1 mm') } }
    const bar = show('OutfitBar.vue', { leader })
    await bar.get('.line input').setValue('DT4F')
    expect(lastEdit(bar).outfit.line).toMatchObject({ ...lineOf('DT4F'), tipDiameter_m: 1e-3 })
  })

  it('says what a wrong line or hook should be, and changes nothing', async () => {
    const bar = show('OutfitBar.vue')
    await bar.get('.line input').setValue('floating')
    expect(bar.get('[role="alert"]').text()).toMatch(/"floating".*WF5F/)
    expect(bar.get('.line input').attributes('aria-invalid')).toBe('true')
    await bar.get('.line input').setValue('WF6F')
    await bar.get('.hook input').setValue('99')
    expect(bar.get('[role="alert"]').text()).toMatch(/"99".*26 to 1/)
    expect(edits(bar)).toHaveLength(1)
  })

  it('shows a cast of one’s own, until a caster is chosen in its place', async () => {
    const ownCast = { lineSpeed_m_s: 11, loopHeight_m: 1 }
    const { outfit } = soundLeader()
    const bar = show('OutfitBar.vue', {
      leader: { ...soundLeader(), outfit: { ...outfit, ownCast } },
    })
    expect(bar.get<HTMLSelectElement>('.caster select').element.value).toBe('own')
    await bar.get('.caster select').setValue('strong')
    expect(lastEdit(bar).outfit).toMatchObject({ caster: 'strong' })
    expect(lastEdit(bar).outfit).not.toHaveProperty('ownCast')
  })

  it('clears line, rod and fish', async () => {
    const bar = show('OutfitBar.vue')
    await bar.get('.line input').setValue('')
    await write(bar, 'Rod length', '')
    await write(bar, 'Weight of the fish you expect', '')
    const [noLine, noRod, noFish] = edits(bar).map(({ outfit }) => outfit)
    expect(noLine).not.toHaveProperty('line')
    expect(noRod).not.toHaveProperty('rod')
    expect(noFish).not.toHaveProperty('fish')
  })

  it('chooses caster, fly and hook, and no fly', async () => {
    const bar = show('OutfitBar.vue')
    await bar.get('.caster select').setValue('learner')
    await bar.get('.fly select').setValue('streamer')
    await bar.get('.hook input').setValue('1/0')
    await bar.get('.fly select').setValue('')
    const [first, second, third, fourth] = edits(bar)
    expect(first?.outfit.caster).toBe('learner')
    expect(second?.tip.fly?.fly).toEqual({ style: 'streamer', hook: 18 })
    expect(third?.tip.fly?.fly).toMatchObject({ style: 'parachute' })
    expect(fourth?.tip).not.toHaveProperty('fly')
  })

  it('offers no hook without a fly', () => {
    const leader = { ...soundLeader(), tip: { joint: soundLeader().tip.joint } }
    expect(show('OutfitBar.vue', { leader }).get('.hook input').attributes('disabled')).toBe('')
  })
})

describe('ProfileChart', () => {
  const evaluation = evaluate(soundLeader())
  const [diameter, stiffness, , strength] = profileSeries(evaluation, UNITS)

  function given(series: unknown) {
    const stub = show('ProfileChart.vue', { series }).getComponent(chart)
    return stub.props() as { data: ChartData<'scatter'>; options: ChartOptions<'scatter'> }
  }

  it('hands the curve to the chart as it is', () => {
    const { data } = given(diameter)
    expect(data.datasets).toHaveLength(1)
    expect(data.datasets[0]?.data).toEqual(diameter?.points)
    expect(data.datasets[0]).toMatchObject({ showLine: true, borderColor: COLOURS.ink })
  })

  it('adds the second curve and the marks in fainter or other ink', () => {
    const [, wet] = given(stiffness).data.datasets
    const [, knots] = given(strength).data.datasets
    expect(wet?.data).toEqual(stiffness?.second?.points)
    expect(wet?.borderColor).toBe(COLOURS.faint)
    expect(knots?.data).toEqual(strength?.marks?.points)
    expect(knots?.borderColor).toBe(COLOURS.water)
  })

  it('runs over the whole leader, moves nothing, and is logarithmic where it says so', () => {
    const { options } = given(stiffness)
    expect(options.animation).toBe(false)
    expect(options.scales?.['x']).toMatchObject({ min: 0, max: 2.7432 })
    expect(options.scales?.['y']?.type).toBe('logarithmic')
    expect(given(diameter).options.scales?.['y']?.type).toBe('linear')
    expect(show('ProfileChart.vue', { series: stiffness }).text()).toContain('log scale')
  })
})

describe('ProfileStack', () => {
  it('reads out the place under the hairline and puts the hairline there', () => {
    const stack = show('ProfileStack.vue', { distance: 2.7432 })
    expect(stack.get('.readout').text()).toContain('108 in out, piece 7: tippet')
    expect(stack.get('.readout').text()).toMatch(/holds [\d.]+ lb wet/)
    const { transform } = (stack.get('.hairline').element as HTMLElement).style
    // 800 pixels less the margin of 30.
    expect(Number.parseFloat(transform.slice('translateX('.length))).toBeCloseTo(770, 6)
  })

  it('has no hairline where nothing is pointed at', () => {
    expect(show('ProfileStack.vue').find('.hairline').exists()).toBe(false)
  })

  it('draws four charts and names the places of the axis', () => {
    const stack = show('ProfileStack.vue')
    expect(stack.findAll('figure')).toHaveLength(4)
    expect(stack.findAll('.ticks span').map((one) => one.text())).toEqual([
      'line',
      "1'",
      "2'",
      "3'",
      "4'",
      "5'",
      "6'",
      "7'",
      "8'",
      "9'",
    ])
  })

  it('is pointed at by its slider too', async () => {
    const stack = show('ProfileStack.vue')
    await stack.get('input[type="range"]').setValue('500')
    expect(stack.emitted('point')?.[0]?.[0]).toBeCloseTo(1.3716, 6)
  })
})

describe('SegmentDialog', () => {
  const press = async (dialog: VueWrapper, text: string) => {
    await button(dialog, text).trigger('click')
    return lastEdit(dialog).segments.map(({ diameter }) => diameter.text)
  }
  const sizes = soundLeader().segments.map(({ diameter }) => diameter.text)

  it('moves the piece towards line and fly, and goes with it', async () => {
    const dialog = show('SegmentDialog.vue')
    expect(await press(dialog, 'Towards the line')).toEqual([
      sizes[0],
      sizes[2],
      sizes[1],
      ...sizes.slice(3),
    ])
    await press(dialog, 'Towards the fly')
    expect(dialog.emitted('move')).toEqual([[1], [3]])
  })

  it('adds, duplicates, splits, joins and deletes', async () => {
    const dialog = show('SegmentDialog.vue')
    expect(await press(dialog, 'Add below')).toHaveLength(8)
    expect((await press(dialog, 'Duplicate')).slice(2, 4)).toEqual([sizes[2], sizes[2]])
    expect(await press(dialog, 'Split in two')).toHaveLength(8)
    expect(await press(dialog, 'Join with next')).toHaveLength(6)
    expect(await press(dialog, 'Delete')).toEqual(sizes.filter((_, i) => i !== 2))
  })

  it('offers nothing that cannot be done at either end', () => {
    const first = show('SegmentDialog.vue', { row: 0 })
    const last = show('SegmentDialog.vue', { row: 6 })
    expect(button(first, 'Towards the line').element.disabled).toBe(true)
    expect(button(last, 'Towards the fly').element.disabled).toBe(true)
    expect(button(last, 'Join with next').element.disabled).toBe(true)
    const only = leaderOf([{ length: '2 m', diameter: '.02 in', part: 'butt' }])
    const alone = show('SegmentDialog.vue', { leader: only, row: 0 })
    expect(button(alone, 'Delete').element.disabled).toBe(true)
  })

  it.each([
    ['Measured diameter', '0.31 mm', 'measured'],
    ['Labelled strength', '9 lb', 'strength'],
    ['Own pull test', '4 kg', 'pullTest'],
  ] as const)('%s is kept as typed and can be cleared', async (label, text, key) => {
    const dialog = show('SegmentDialog.vue')
    await write(dialog, label, text)
    const next = lastEdit(dialog)
    expect(next.segments[2]?.[key]?.text).toBe(text)
    await dialog.setProps({ leader: next })
    await write(dialog, label, '')
    expect(lastEdit(dialog).segments[2]).not.toHaveProperty(key)
  })

  it('keeps label, colour and note, and drops one that is emptied', async () => {
    const leader = withPiece(soundLeader(), 2, { note: 'old spool' })
    const dialog = show('SegmentDialog.vue', { leader })
    const field = (name: string) =>
      dialog
        .findAll('label')
        .find((one) => one.text().startsWith(name))
        ?.get('input')
    await field('Size on the label')?.setValue('1X')
    await field('Colour')?.setValue('red')
    await field('Note')?.setValue(' ')
    const [label, colour, note] = edits(dialog).map(({ segments }) => segments[2])
    expect(label).toMatchObject({ label: '1X' })
    expect(colour).toMatchObject({ colour: 'red' })
    expect(note).not.toHaveProperty('note')
  })

  it('takes turns of the knot from 1 to 20 for each side', async () => {
    const dialog = show('SegmentDialog.vue')
    const [butt, fly] = dialog.findAll<HTMLInputElement>('input[type="number"]')
    await butt?.setValue('6')
    await fly?.setValue('21')
    await fly?.setValue('0')
    expect(edits(dialog)).toHaveLength(1)
    expect(fly?.element.value).not.toBe('0')
    expect(lastEdit(dialog).segments[2]?.joint.turns?.[0]).toBe(6)
  })

  it('says what the figures of the material rest on', () => {
    const text = show('SegmentDialog.vue').text()
    expect(text).toMatch(/density \d+ kg\/m³ \(.+\); modulus/)
    expect(text).not.toMatch(/undefined|NaN/)
  })
})

describe('SegmentRow', () => {
  it('offers the knots that belong to its place, and the one that is tied even if it does not', () => {
    const options = (row: VueWrapper) =>
      row
        .get('[data-column="knot"]')
        .findAll('option')
        .map((one) => one.text())
    expect(options(show('SegmentRow.vue'))).not.toContain('Nail knot')
    const segment = { ...soundLeader().segments[1], joint: { knot: 'nail' } }
    expect(options(show('SegmentRow.vue', { piece: { ...piece, segment } }))[0]).toBe('Nail knot')
  })

  it('asks for size, length, part, material and knot', async () => {
    const row = show('SegmentRow.vue')
    await write(row, 'Diameter of piece 2', '.018')
    await write(row, 'Length of piece 2', '14')
    await named(row, 'Part of piece 2').setValue('mid-section')
    await named(row, 'Material of piece 2').setValue('fluorocarbon')
    await named(row, 'Knot above piece 2').setValue('blood')
    expect(row.emitted('size')?.[0]?.[0]).toMatchObject({ text: '.018', unit: 'in' })
    expect(row.emitted('patch')).toMatchObject([
      ['length', { length: { text: '14' } }],
      ['part', { part: 'mid-section' }],
      ['material', { material: 'fluorocarbon' }],
    ])
    expect(row.emitted('tie')).toEqual([['blood']])
  })

  it('says by icon and by word that something is wrong here', () => {
    const row = show('SegmentRow.vue', { piece: { ...piece, severity: 'fault' } })
    expect(row.find('.icon.fault').exists()).toBe(true)
    expect(row.get('.number').text()).toContain('Fault')
  })
})

describe('SegmentTable', () => {
  const rowKey = (table: VueWrapper, label: string, key: string, more: object = {}) =>
    named(table, label).trigger('keydown', { key, ...more })

  it.each([
    ['Enter', 6, 8],
    ['Delete', 6, 6],
    ['d', 6, 8],
    ['s', 2, 8],
    ['j', 2, 6],
  ])('Alt %s on row %i leaves %i pieces', async (key, row, left) => {
    const table = show('SegmentTable.vue')
    await rowKey(table, `Diameter of piece ${row}`, key, { altKey: true })
    expect(lastEdit(table).segments).toHaveLength(left)
  })

  it('moves no piece beyond the ends', async () => {
    const table = show('SegmentTable.vue')
    await rowKey(table, 'Diameter of piece 1', 'ArrowUp', { altKey: true })
    await rowKey(table, 'Diameter of piece 7', 'ArrowDown', { altKey: true })
    expect(edits(table)).toEqual([])
  })

  it.each([
    ['Diameter of piece 2', 'Enter', {}, 'Diameter of piece 3'],
    ['Diameter of piece 2', 'Enter', { shiftKey: true }, 'Diameter of piece 1'],
    ['Diameter of piece 2', 'ArrowDown', {}, 'Diameter of piece 3'],
    ['Diameter of piece 2', 'ArrowUp', {}, 'Diameter of piece 1'],
    ['Part of piece 2', 'ArrowRight', {}, 'Material of piece 2'],
    ['Knot above piece 2', 'ArrowLeft', {}, 'Length of piece 2'],
    ['Diameter of piece 7', 'Enter', {}, 'Diameter of piece 7'],
    ['Diameter of piece 7', 'ArrowDown', {}, 'Knot at the fly'],
  ])('from %s, %s %o goes to %s', async (from, key, more, to) => {
    const table = show('SegmentTable.vue')
    ;(named(table, from).element as HTMLElement).focus()
    await rowKey(table, from, key, more)
    await flushPromises()
    expect(document.activeElement?.getAttribute('aria-label')).toBe(to)
  })

  it('lets the arrows move within a text first', async () => {
    const table = show('SegmentTable.vue')
    const field = named(table, 'Diameter of piece 2')
    const input = field.element as HTMLInputElement
    input.focus()
    input.setSelectionRange(2, 2)
    await field.trigger('keydown', { key: 'ArrowRight' })
    await flushPromises()
    expect(document.activeElement).toBe(input)
    input.setSelectionRange(input.value.length, input.value.length)
    await field.trigger('keydown', { key: 'ArrowRight' })
    await flushPromises()
    expect(document.activeElement?.getAttribute('aria-label')).toBe('Length of piece 2')
  })

  it('points at a row under the mouse and at none beside the table', async () => {
    const table = show('SegmentTable.vue')
    await table.get('[data-row="4"]').trigger('mouseenter')
    await table.get('table').trigger('mouseleave')
    expect(table.emitted('point')).toEqual([[4], [null]])
  })

  it('moves the row that is dragged to where it is dropped', async () => {
    const table = show('SegmentTable.vue')
    await table.get('[data-row="1"] .number button').trigger('dragstart')
    await table.get('[data-row="3"]').trigger('drop')
    expect(lastEdit(table).segments.map(({ key }) => key)).toEqual([1, 3, 4, 2, 5, 6, 7])
  })

  it('marks the rows from the first selected to the one with Shift', async () => {
    const table = show('SegmentTable.vue')
    await table.get('[data-row="2"] .number button').trigger('click')
    await table.get('[data-row="4"] .number button').trigger('click', { shiftKey: true })
    const pressed = table.findAll('[aria-pressed="true"]').map((one) => one.text())
    expect(pressed).toEqual(['3', '4', '5'])
  })
})

describe('the bench', () => {
  it('passes an edit of the table on to every other view', async () => {
    const bench = show('View.vue')
    await write(bench, 'Length of piece 1', '48 in')
    await flushPromises()
    // A foot more than the nine of the shipped leader.
    expect(bench.get('.band .figure').text()).toBe("10'")
    expect(bench.findAll('.drawing text').map((one) => one.text())).toContain('48 in')
  })

  it('points drawing, readout and row at one place', async () => {
    const bench = show('View.vue')
    await bench.get('[data-row="2"]').trigger('mouseenter')
    expect(bench.get('[data-row="2"]').classes()).toContain('current')
    expect(bench.get('.readout').text()).toContain('piece 3')
    expect(bench.find('.hairline').exists()).toBe(true)
  })
})
