/** What a list was set to, as one of the values that it offers. */
export function choiceOf<const T extends string>(event: Event, offered: readonly T[]): T {
  const { value } = event.target as HTMLSelectElement
  const found = offered.find((one) => one === value)
  if (found === undefined) throw new RangeError(`"${value}" is not offered here.`)
  return found
}
