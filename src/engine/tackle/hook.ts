/**
 * Hook size as trade number n: 26 (smallest) down to 1, then 0 for 1/0, -1 for 2/0, to -3 for 4/0.
 */
export type HookSize = number

export const SMALLEST_HOOK = 26
export const LARGEST_HOOK = -3

/** Reads `14`, `#14`, `2/0`; undefined for anything else or out of 26 to 4/0. */
export function parseHook(text: string | number): HookSize | undefined {
  const clean = String(text).trim().replace(/^#\s*/, '')
  const aught = /^(\d)\/0$/.exec(clean)
  const n = aught ? 1 - Number(aught[1]) : /^\d{1,2}$/.test(clean) ? Number(clean) : NaN
  const isSize = n <= SMALLEST_HOOK && n >= LARGEST_HOOK && (aught ? n <= 0 : n >= 1)
  return isSize ? n : undefined
}

export function formatHook(n: HookSize): string {
  return n >= 1 ? String(n) : `${1 - n}/0`
}

/**
 * Shank length (m) of a standard hook: 8.7 mm x 1.106^(14 - n).
 * Estimate within 35 %: no universal hook standard exists and makers differ by a full size.
 */
export function shankLength_m(n: HookSize): number {
  return 8.7e-3 * 1.106 ** (14 - n)
}

/** Gape (m), 0.45 of the shank; same estimate. */
export function gape_m(n: HookSize): number {
  return 0.45 * shankLength_m(n)
}

/** Mass (kg) of a dry-fly hook: wire of 0.41 mm x 1.05^(14 - n), steel of 7850 kg/m3; same estimate. */
export function dryHookMass_kg(n: HookSize): number {
  const wire_m = 0.41e-3 * 1.05 ** (14 - n)
  const length_m = shankLength_m(n) + 2.3 * gape_m(n) + 8 * wire_m
  return 7850 * (Math.PI / 4) * wire_m ** 2 * length_m
}
