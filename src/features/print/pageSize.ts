import { onBeforeUnmount, watchEffect } from 'vue'

/**
 * The paper that is printed on, as long as the place is open. A sheet made by script, since the size is chosen
 * and named pages make Chromium break at every picture.
 */
export function usePageSize(rule: () => { readonly size: string; readonly margin: string }): void {
  const sheet = new CSSStyleSheet()
  watchEffect(() => {
    const { size, margin } = rule()
    sheet.replaceSync(`@page { size: ${size}; margin: ${margin} }`)
  })
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]
  onBeforeUnmount(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== sheet)
  })
}
