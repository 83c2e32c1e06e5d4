/** Before each file of tests: a property is an assertion, and one that was never tried has shown nothing. */
import fc from 'fast-check'
import { expect } from 'vitest'

fc.configureGlobal({
  reporter: (out) => {
    expect(out.failed, fc.defaultReportMessage(out)).toBe(false)
    expect(out.numRuns).toBeGreaterThan(0)
  },
})
