import { plural } from '../figures'
import { room } from '../language'

type Named = { name: string }
type Of = { length: string; size: string }

export const leaderInUse = room('leaderInUse', {
  start: {
    title: 'Take a leader to the water',
    about:
      'From then on each change of fly and each break is one tap; what is left, and what to tie on, is told. It works without a network.',
    leader: 'Leader',
    onBench: 'the one on the bench',
    with: ({ name, length }: { name: string; length: string }) => `Start with ${name}, ${length}`,
    rebuild: 'Rebuild it from what is left in my hand',
    back: ({ name }: Named) => `Back to ${name}`,
    /** Added to the name of a formula that is made from the leader in use. */
    mark: 'in use',
  },
  rebuild: {
    title: ({ name }: Named) => `Rebuild to ${name}`,
    inHand: 'In my hand, from the line down',
    oldDiameter: ({ no }: { no: number }) => `Diameter of old piece ${no}`,
    oldLength: ({ no }: { no: number }) => `Length of old piece ${no}`,
    remove: 'Remove',
    oldPiece: ({ no }: { no: number }) => `old piece ${no}`,
    anotherPiece: 'Another piece',
    spools: 'Spools at hand',
    spoolDiameter: ({ no }: { no: number }) => `Diameter on spool ${no}`,
    spool: ({ no }: { no: number }) => `spool ${no}`,
    anotherSpool: 'Another spool',
    shelf: ({ count }: { count: number }) => `Take the ${count} of my shelf`,
    steps: 'Do this',
    total: (p: { total: string; saved: string }) => `${p.total} in all, ${p.saved} of it saved.`,
    done: 'Done: take it to the water',
    back: 'Back',
  },
  left: 'of tippet left',
  now: (p: { began: string; size: string; total: string }) =>
    `Began with ${p.began} of ${p.size}; now ${p.total} in all.`,
  total: {
    label: 'Length of the leader now',
    band: ({ length }: { length: string }) => `give or take ${length}`,
    source:
      'a change of fly takes 2 to 4 in (from memory); measure now and then, and set what yours take below',
  },
  toAdd: 'What to add',
  tiedOn: 'Done: tied on',
  more: 'More',
  clips: 'A change clips',
  clipsLength: 'Length that a change of fly clips',
  takes: 'A break takes',
  takesLength: 'Length that a break takes',
  toBench: 'Lay it on the bench as it is now',
  another: 'Another leader',
  log: 'What happened, latest first',
  offcuts: 'Offcuts go home with you; fluorocarbon outlasts us all.',
  happened: 'What happened',
  changed: 'Changed fly',
  broke: 'Broke off',
  newTippet: 'New tippet',
  undo: 'Undo the last',
  tippet: {
    title: 'Another tippet',
    length: 'Length',
    lengthLabel: 'Length of the tippet tied on',
    size: 'Size',
    sizeLabel: 'Size of the tippet tied on',
    material: 'Material',
    knot: 'Knot',
    add: 'Added this',
  },
  state: {
    inTaper: ({ size }: { size: string }) =>
      `The tippet is gone: the end is in the taper and is now ${size}.`,
    short: ({ length }: { length: string }) => `Too short: below ${length}.`,
    last: 'Good for now; the next change makes it too short.',
    good: ({ count }: { count: number }) =>
      `Good for ${count} more ${plural(count, { one: 'change', other: 'changes' })} of fly.`,
  },
  addition: {
    cutOff: 'Cut off what is left of the tippet and take it home.',
    tieOn: ({ length, size, knot }: Of & { knot: string }) =>
      `Tie on ${length} of ${size} by ${knot}.`,
    after: ({ length, force }: { length: string; force: string }) =>
      `Then ${length} in all, holds ${force} wet at its weakest place.`,
    delivered: ({ line }: { line: string }) => `With it: ${line}`,
  },
  event: {
    changed: ({ length }: { length: string }) => `Changed the fly, ${length} clipped`,
    broke: ({ length }: { length: string }) => `Broke off, ${length} lost`,
    added: ({ length, size }: Of) => `Tied on ${length} of ${size}`,
    replaced: ({ length, size }: Of) => `Cut the stub off, tied on ${length} of ${size}`,
    line: ({ event }: { event: string }) => `${event}.`,
  },
})
