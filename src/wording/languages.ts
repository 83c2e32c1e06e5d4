import type { app } from './rooms/app'
import type { leaderInUse } from './rooms/leaderInUse'
import type { spools } from './rooms/spools'
import type { tying } from './rooms/tying'
import type { ui } from './rooms/ui'

/** What another language must hold: one file that gives every room, whose gaps are type errors. */
export interface Language {
  /** BCP 47, such as `nl` or `de-AT`: numbers, lists and plurals follow it. */
  readonly tag: string
  readonly rooms: {
    readonly app: typeof app
    readonly leaderInUse: typeof leaderInUse
    readonly spools: typeof spools
    readonly tying: typeof tying
    readonly ui: typeof ui
  }
}
