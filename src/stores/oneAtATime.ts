/**
 * Runs a task that saves what is newest when it starts: one at a time, and once more if it was asked for
 * in the meantime. `settled` is kept when nothing is left to do.
 */
export function oneAtATime(task: () => Promise<void>) {
  let running: Promise<void> | undefined
  let again = false
  async function run(): Promise<void> {
    try {
      while (again) {
        again = false
        await task()
      }
    } finally {
      running = undefined
    }
  }
  return {
    ask(): void {
      again = true
      running ??= run()
    },
    /** Whether what the running task saves is not the newest any more. */
    isAskedAgain: () => again,
    settled: () => running ?? Promise.resolve(),
  }
}
