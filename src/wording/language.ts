/**
 * One language at a time. A room's messages are written in English where the room is and read when they are shown,
 * so that a room is fetched with its words and another language need only be given before the first screen stands.
 */

type Message = string | ((parts: never) => string)

/** A text, or a text with named parts; in groups where several belong together. */
export type Messages = {
  readonly [key: string]: Message | readonly (string | readonly string[])[] | Messages
}

/** Messages as any language must have them: the same keys, lists of any texts, functions of the same parts. */
export type Said<T> = T extends string
  ? string
  : T extends readonly (infer Each)[]
    ? readonly Said<Each>[]
    : T extends (...parts: infer Parts) => string
      ? (...parts: Parts) => string
      : { readonly [K in keyof T]: Said<T[K]> }

/** What a language brings: its tag (BCP 47) and the messages of every room by the room's name. */
export interface AnyLanguage {
  readonly tag: string
  readonly rooms: Readonly<Record<string, Messages>>
}

/** British English: day before month, and no comma before the "and" of a list. */
const ENGLISH = 'en-GB'

let spoken: AnyLanguage | undefined

/** Speaks another language from now on, or English again. What is on the screen is not told of it. */
export function speak(language: AnyLanguage | undefined): void {
  spoken = language
}

export const languageTag = (): string => spoken?.tag ?? ENGLISH

/** The messages of one room, each in the language that is spoken when it is read. */
export function room<const T extends Messages>(name: string, english: T): Said<T> {
  return new Proxy(english, {
    get: (own, key) => (spoken?.rooms[name] ?? own)[key as string],
  }) as unknown as Said<T>
}
