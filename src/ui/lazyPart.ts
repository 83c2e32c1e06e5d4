import type { AsyncComponentLoader, Component } from 'vue'
import { defineAsyncComponent } from 'vue'
import MissingPart from './MissingPart.vue'

/** Pauses before a part that did not come is asked for again, ms; after the last it is said that it is missing. */
const PAUSES = [500, 2000, 5000]

/**
 * A part of the app that is fetched when it is first shown. One that does not come is asked for again, and then its
 * place says so, with a button; nothing else on the page is touched by it.
 * @param waiting what stands in its place until then; nothing where it is left out
 */
export const lazyPart = <T extends Component>(
  loader: AsyncComponentLoader<T>,
  waiting?: Component,
) =>
  defineAsyncComponent({
    loader,
    ...(waiting ? { loadingComponent: waiting, delay: 0 } : {}),
    errorComponent: MissingPart,
    onError(_error, retry, fail, attempts) {
      const pause = PAUSES[attempts - 1]
      if (pause === undefined) fail()
      else setTimeout(retry, pause)
    },
  })
