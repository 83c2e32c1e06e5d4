import type { FromWorker, ToWorker } from './protocol'
import { stepsOf } from './jobs'
import { messageOf } from '../engine/messageOf'

/** A shell round the jobs: between two steps it listens, so that a cancelled job stops. */
const cancelled = new Set<number>()
const say = (message: FromWorker) => self.postMessage(message)
const breath = () => new Promise<void>((resolve) => setTimeout(resolve))

/** Works so long between breaths, ms: a timer waits up to four, as long as a quick flight takes. */
const SLICE_MS = 15

self.addEventListener('message', (event: MessageEvent<ToWorker>) => {
  const message = event.data
  if (message.type === 'cancel') cancelled.add(message.id)
  else if (message.type === 'ping') say({ type: 'alive' })
  else void run(message)
})

async function run({ id, job }: ToWorker & { type: 'run' }): Promise<void> {
  try {
    const steps = stepsOf(job)
    let rested = performance.now()
    while (!cancelled.delete(id)) {
      const step = steps.next()
      if (step.done) return say({ type: 'done', id, result: step.value })
      if (step.value) say({ type: 'progress', id, progress: step.value })
      if (performance.now() - rested < SLICE_MS) continue
      await breath()
      rested = performance.now()
    }
  } catch (error) {
    say({ type: 'failed', id, message: messageOf(error) })
  }
}
