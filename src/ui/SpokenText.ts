import { defineComponent } from 'vue'

/** Around the name of a part that a slot draws; no message holds this character. */
const MARK = '\u0001'

/** Answers with the name of whatever part is asked for, marked. */
const marks = new Proxy({}, { get: (_, name) => MARK + String(name) + MARK })

/**
 * A message with elements inside it, in the order of its language: each part that it names is drawn by the slot
 * of that name.
 */
export const SpokenText = defineComponent(
  ({ message }: { message: (parts: never) => string }, { slots }) =>
    () =>
      message(marks as never)
        .split(MARK)
        .map((piece, i) => (i % 2 === 0 ? piece : slots[piece]?.())),
  { props: ['message'] },
)
