import type { Leader } from '../engine/leader'
import type { LinkResult } from '../documents'
import { forLabel, readLink, writeLink } from '../documents'
import { pageDeflate } from './deflate'

/** The place that opens an arriving link; short, since it is in every code. */
const PLACE = '#s/'

/** This page's own address, without what follows it. */
export const ownBase = (): string => window.location.href.replace(/[?#].*$/, '')

/** Other people's devices do not reach this one. */
export function isOnlyHere(base: string): boolean {
  try {
    const { protocol, hostname } = new URL(base)
    const isLoopback = /^(localhost|127\..*|\[::1\]|0\.0\.0\.0)$/.test(hostname)
    return isLoopback || !/^https?:$/.test(protocol)
  } catch {
    return true
  }
}

/** An address that links can begin with, or why not. */
export function baseFrom(text: string): { base: string } | { problem: string } {
  try {
    const url = new URL(text.trim())
    if (!/^https?:$/.test(url.protocol)) return { problem: 'It must begin with https://' }
    return { base: url.href.replace(/[?#].*$/, '') }
  } catch {
    return { problem: 'This is no address. Write it whole, such as https://example.org/leaders/' }
  }
}

export async function linkTo(leaders: readonly Leader[], base: string): Promise<string> {
  return `${base}${PLACE}${await writeLink(leaders, pageDeflate)}`
}

/** Modules of a code that a phone reads at label size: 30 mm in modules of 0.4 mm (common practice). */
export const MOST_MODULES = 65

/** The link of a label: notes are left out, since a code with fewer modules is read from farther off. */
export const labelLink = (leader: Leader, base: string): Promise<string> =>
  linkTo([forLabel(leader)], base)

export const openLink = (code: string): Promise<LinkResult> => readLink(code, pageDeflate)
