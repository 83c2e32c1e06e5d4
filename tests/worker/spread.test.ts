// @vitest-environment node
import { describe, expect, it, vi } from 'vitest'
import { withSpeed, sought } from '../../src/engine/cast'
import type { Delivery, DeliveryCase, DeliveryMap } from '../../src/engine/delivery'
import {
  deliveryQuestion,
  deliverySteps,
  MAP_AIMS_DEG,
  mapSteps,
  roomBandOf,
  roomSampleSteps,
} from '../../src/engine/delivery'
import { CastClient, Superseded } from '../../src/worker/client'
import type { Result } from '../../src/worker/protocol'
import { work } from '../../src/worker/spread'
import { quickCase, soundLeader } from './casts'
import { inProcessPool, PuppetWorker } from './inProcess'

const input = quickCase(soundLeader())
const settle = () => new Promise<void>((resolve) => setTimeout(resolve))

describe('a delivery spread over the workers', () => {
  const asked = deliveryQuestion(soundLeader(), { lineOut_m: 5 }) as DeliveryCase
  const delivered = sought(deliverySteps(asked)) as Delivery

  it('is what one cast after another says, and more than one worker flies it', async () => {
    const { pool, asked: jobs } = inProcessPool()
    const found = await work(pool, { kind: 'delivery', ...asked }, 'delivery', () => {})
    expect(found).toEqual(delivered)
    // Five aims, a choice, eleven parts of the casts about it at least.
    expect(jobs().length).toBeGreaterThanOrEqual(16)
  })

  it('its map grows from the lowest aim up', async () => {
    const { pool } = inProcessPool()
    const seen: DeliveryMap[] = []
    const hear = (map: unknown) => seen.push(map as DeliveryMap)
    const slow = { ...asked, input: { ...asked.input, endTime_s: 0.3 } }
    const map = await work(pool, { kind: 'map', ...slow }, 'map', hear)
    expect(map).toEqual(sought(mapSteps(slow)))
    expect(map.launchAngles_deg).toEqual([...MAP_AIMS_DEG])
    expect(map.lay.every((row) => row.length === map.lineSpeeds_m_s.length)).toBe(true)
    expect(seen.length).toBeGreaterThan(1)
    for (const { lay, launchAngles_deg } of seen) expect(lay.length).toBe(launchAngles_deg.length)
  })

  it('its band is that of the seeds in their order', async () => {
    const { pool } = inProcessPool()
    const { room, launchAngle_deg } = delivered.best
    const known = { lines: delivered.lines, room, launchAngle_deg }
    const question = { kind: 'room-band', ...asked, known, samples: 2 } as const
    const band = await work(pool, question, 'band', () => {})
    const rooms = [1, 2].map((seed) => sought(roomSampleSteps(asked, known, seed)))
    expect(band).toEqual(roomBandOf(rooms))
    expect(band.p10).toBeLessThanOrEqual(band.p90)
  })
})

describe('parts of a long question', () => {
  function hired() {
    const workers: PuppetWorker[] = []
    const client = new CastClient(() => {
      const worker = new PuppetWorker()
      workers.push(worker)
      return worker
    }, 2)
    const runs = (worker: PuppetWorker | undefined) =>
      (worker?.told ?? []).flatMap((m) => (m.type === 'run' ? [m] : []))
    const answer = (worker: PuppetWorker | undefined, result: Result) =>
      worker?.say({ type: 'done', id: runs(worker).at(-1)?.id ?? -1, result })
    return { client, workers, runs, answer }
  }
  const speeds = (v: number) => ({ kind: 'extensions', inputs: [withSpeed(input, v)] }) as const

  it('keep all workers busy, and let a question asked alone go before them', () => {
    const { client, workers, runs, answer } = hired()
    void client.runAll([1, 2, 3, 4, 5].map(speeds), { lane: 'long' }).catch(() => {})
    expect(workers.map((worker) => runs(worker).length)).toEqual([1, 1])
    void client.run(speeds(9)).catch(() => {})
    answer(workers[1], [0.2])
    expect(runs(workers[1]).at(-1)?.job).toEqual(speeds(9))
    answer(workers[0], [0.1])
    expect(runs(workers[0]).at(-1)?.job).toEqual(speeds(3))
  })

  it('are given up together, by a newer question of the lane or by one of them that fails', async () => {
    const { client, workers, runs, answer } = hired()
    const old = client.runAll([1, 2, 3].map(speeds), { lane: 'long' })
    const gone = expect(old).rejects.toBeInstanceOf(Superseded)
    const onResult = vi.fn()
    const fresh = client.runAll([4, 5, 6].map(speeds), { lane: 'long', onResult })
    await gone
    expect(runs(workers[0]).at(-1)?.job).toEqual(speeds(4))
    answer(workers[1], [0.5])
    await settle()
    expect(onResult).not.toHaveBeenCalled()
    answer(workers[0], [0.4])
    await settle()
    expect(onResult.mock.calls).toEqual([[[[0.4], [0.5]]]])
    const torn = expect(fresh).rejects.toThrow('torn')
    const failing = runs(workers[1]).at(-1)!
    expect(failing.job).toEqual(speeds(6))
    workers[1]?.say({ type: 'failed', id: failing.id, message: 'torn' })
    await torn
  })

  it('none at all is an answer too', async () => {
    const { client } = hired()
    expect(await client.runAll([], { lane: 'long' })).toEqual([])
  })
})
