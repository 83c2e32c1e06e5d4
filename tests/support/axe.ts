import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']

/** The page has no frames, so a scan needs no second page to put its parts together. */
async function faultsOf(page: Page): Promise<string[]> {
  // What is in order is not written down either, which takes longer than finding it so.
  const scan = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).withTags(RULES)
  const { violations } = await scan.setLegacyMode().analyze()
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} (${node.target.join(' ')})`),
  )
}

/** Scans the page as it now stands in light and in dark, and leaves it as it was found: light. */
export async function expectAccessible(page: Page): Promise<void> {
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme })
    // A colour caught halfway through its change would be measured as a fault.
    await page.evaluate(() => Promise.all(document.getAnimations().map((a) => a.finished)))
    expect(await faultsOf(page), `accessibility faults in ${colorScheme}`).toEqual([])
  }
}

/** The same, and that nothing is wider than the page. */
export async function expectAccessibleWithin(page: Page, width: number): Promise<void> {
  await expectAccessible(page)
  const found = await page.evaluate(() => document.scrollingElement!.scrollWidth)
  expect(found).toBeLessThanOrEqual(width)
}
