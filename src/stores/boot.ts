import type { Pinia } from 'pinia'
import { shallowRef } from 'vue'
import type { Storage } from '../storage'
import { messageOf } from '../engine/messageOf'
import { useBench } from './bench'
import { useItems } from './items'
import { useLibrary } from './library'
import { useNews } from './news'
import { provideStorage } from './provided'
import { useSettings } from './settings'

/**
 * Sets the stores going. The bench can be shown at once; the promise is kept when storage has come, or
 * has refused, and the formula opened last is on the bench.
 */
export async function startStores(
  pinia: Pinia,
  storage: Promise<Storage> = opened(),
): Promise<void> {
  const [settings, library, items] = [useSettings(pinia), useLibrary(pinia), useItems(pinia)]
  const bench = useBench(pinia)
  provideStorage(storage)
  const news = useNews(pinia).start(storage)
  await Promise.all([settings.start(storage), items.start(storage), library.start()])
  bench.resume()
  await news
}

/** Begins the simulation anew, where it has stopped for good; undefined while it runs. */
export const simulationStopped = shallowRef<() => void>()

/** Brings the workers, and the bench its deliveries; after the first screen stands, which does without them. */
export async function startCasts(pinia: Pinia): Promise<void> {
  try {
    await bringCasts(pinia)
  } catch (error) {
    const judgement = { kind: 'not-flown', reason: messageOf(error) } as const
    useBench(pinia).readDeliveries({ judgement, flown: undefined, yardstick: undefined })
    simulationStopped.value = () => {
      simulationStopped.value = undefined
      void startCasts(pinia)
    }
  }
}

async function bringCasts(pinia: Pinia): Promise<void> {
  const [{ useCasts }, { useBenchDelivery }, { pageClient }] = await Promise.all([
    import('./casts'),
    import('./benchDelivery'),
    import('../worker/client'),
  ])
  const [casts, pool] = [useCasts(pinia), pageClient()]
  pool.onStopped = () => {
    simulationStopped.value = () => {
      simulationStopped.value = undefined
      pool.again()
      casts.retry()
    }
  }
  casts.start(pool)
  useBench(pinia).readDeliveries(useBenchDelivery(pinia))
}

/** Fetched beside the first screen, which does not wait for it. */
async function opened(): Promise<Storage> {
  const { openStorage } = await import('../storage')
  return openStorage()
}
