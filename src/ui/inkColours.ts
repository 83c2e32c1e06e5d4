import { onBeforeUnmount, onMounted, shallowRef } from 'vue'

const NAMES = {
  ink: '--ink',
  faint: '--faint-ink',
  rule: '--rule',
  water: '--water',
  third: '--third',
  fourth: '--fourth',
} as const
export type InkColours = Readonly<Record<keyof typeof NAMES, string>>

/** Tokens as a canvas takes them: resolved, and again whenever the theme changes. */
export function useInkColours() {
  const colours = shallowRef<InkColours>(resolved())
  const refresh = () => {
    colours.value = resolved()
  }
  const dark = window.matchMedia('(prefers-color-scheme: dark)')
  const theme = new MutationObserver(refresh)
  onMounted(() => {
    refresh()
    dark.addEventListener('change', refresh)
    theme.observe(document.documentElement, { attributeFilter: ['data-theme'] })
  })
  onBeforeUnmount(() => {
    dark.removeEventListener('change', refresh)
    theme.disconnect()
  })
  return colours
}

/** light-dark() only resolves on a real property, so each token is read through a probe's colour. */
function resolved(): InkColours {
  const probe = document.createElement('span')
  document.body.append(probe)
  const read = (token: string) => {
    probe.style.color = `var(${token})`
    return getComputedStyle(probe).color
  }
  const entries = Object.entries(NAMES).map(([name, token]) => [name, read(token)] as const)
  probe.remove()
  return Object.fromEntries(entries) as Record<keyof typeof NAMES, string>
}
