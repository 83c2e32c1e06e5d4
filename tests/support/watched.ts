import { test as base, expect } from '@playwright/test'

/** Playwright's test, failing also when the page throws, logs an error or asks another host for anything. */
export const test = base.extend<{ quiet: void }>({
  quiet: [
    async ({ page, baseURL }, use) => {
      const noise: string[] = []
      page.on('pageerror', (error) => noise.push(`thrown: ${error.message}`))
      page.on('console', (message) => {
        if (message.type() === 'error') noise.push(`logged: ${message.text()}`)
      })
      page.on('request', (request) => {
        const url = request.url()
        const own = url.startsWith(baseURL ?? '') || /^(data|blob|about):/.test(url)
        if (!own) noise.push(`asked another host: ${url}`)
      })
      await use()
      expect(noise, 'the page keeps quiet').toEqual([])
    },
    { auto: true },
  ],
})

export { expect }
