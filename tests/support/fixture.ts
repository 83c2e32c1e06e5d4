import type { Component } from 'vue'
import type { VueWrapper } from '@vue/test-utils'
import { mount } from '@vue/test-utils'
import { createPinia } from 'pinia'

/** A component with all it needs to stand alone: no worker, no network, no storage. */
export interface Fixture {
  readonly component: Component
  readonly props?: Readonly<Record<string, unknown>>
  readonly slots?: Readonly<Record<string, string>>
  /** A text that a person must find in it. */
  readonly shows: string
}

export type Fixtures = Readonly<Record<string, Fixture>>

/** Happy-dom knows no popovers: here they are neither opened nor closed, and always in sight. */
for (const name of ['showPopover', 'hidePopover']) {
  if (!(name in HTMLElement.prototype))
    Object.defineProperty(HTMLElement.prototype, name, { value: () => undefined })
}

/** Nor does it know that a sheet of styles can be changed; here nothing is printed. */
if (!('replaceSync' in CSSStyleSheet.prototype))
  Object.defineProperty(CSSStyleSheet.prototype, 'replaceSync', { value: () => undefined })
if (!('adoptedStyleSheets' in document))
  Object.defineProperty(document, 'adoptedStyleSheets', { value: [], writable: true })

/** Mounts a fixture into the page. */
export function stand({ component, props, slots }: Fixture, patch: object = {}): VueWrapper {
  const wrapper: unknown = mount(component, {
    attachTo: document.body,
    props: { ...props, ...patch },
    slots: { ...slots },
    global: { plugins: [createPinia()] },
  })
  return wrapper as VueWrapper
}
