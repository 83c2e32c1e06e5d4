/** Before each file of tests: a property is an assertion, and one that was never tried has shown nothing. */
import fc from 'fast-check'
import { expect, vi } from 'vitest'

fc.configureGlobal({
  reporter: (out) => {
    expect(out.failed, fc.defaultReportMessage(out)).toBe(false)
    expect(out.numRuns).toBeGreaterThan(0)
  },
})

/** What is waited for may come late on a busy machine; what never comes is still found. */
const { waitFor } = vi
vi.waitFor = (callback, options = 20_000) => waitFor(callback, options)
