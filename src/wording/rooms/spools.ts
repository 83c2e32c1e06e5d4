import { plural } from '../figures'
import { room } from '../language'

export const spools = room('spools', {
  title: 'Spools',
  add: 'Add a spool',
  tieBatch: 'Tie a batch',
  unreadable: ({ count }: { count: number }) =>
    `${count} entries of the shed were written by a newer or damaged version and are left as they are; a backup holds them.`,
  empty: ({ example }: { example: string }) =>
    `Nothing is on the shelf yet. Add the spools you tie from: their label, what your micrometer says of them, and how much is left. Or ${example}, which Undo clears again.`,
  tryExample: 'try it with an invented shelf',
  steps: {
    add: 'Add a spool',
    change: 'Change a spool',
    remove: 'Take a spool off the shelf',
    example: 'Bring in an invented shelf',
  },
  table: {
    label: 'Spools on the shelf',
    spool: 'Spool',
    measured: 'Measured',
    holds: 'Holds, dry',
    left: 'Left',
    price: 'Price',
    bought: 'Bought',
    state: 'State',
    change: 'Change',
    changeOne: ({ spool }: { spool: string }) => `Change ${spool}`,
    leftOf: ({ left, full }: { left: string; full: string }) => `${left} of ${full}`,
    nothing: '–',
  },
  form: {
    newTitle: 'A new spool',
    title: 'Spool',
    material: 'Material',
    ownMaterial: 'one of my own, by name',
    ownName: 'Its name',
    ownDefault: 'Own material',
    size: 'Size on the label',
    strength: 'Strength on the label',
    left: 'Left now',
    leftLabel: 'Length left now',
    full: 'When new',
    fullLabel: 'Length of a whole spool',
    price: 'Price of a whole spool',
    bought: 'Bought',
    state: 'State',
    colour: 'Colour',
    label: 'Label says',
    note: 'Note',
    keep: 'Keep',
    leave: 'Leave as it was',
    remove: 'Take off the shelf',
  },
  readings: {
    micrometer: 'Micrometer, at several places and turned',
    takeReading: ({ number }: { number: number }) => `Take out reading ${number}`,
    addReading: 'Add a reading',
    pulls: 'Own pull tests (cover your eyes)',
    takePull: ({ number }: { number: number }) => `Take out pull test ${number}`,
    addPull: 'Add a pull test',
    summary: ({ mean, spread, range }: { mean: string; spread: string; range: string }) =>
      `mean ${mean}, spread ±${spread}, all within ${range}`,
  },
  tie: {
    title: 'What can be tied',
    only: 'only these',
    none: 'Nothing yet: open a formula to see what it lacks.',
    atLeast: ({ count }: { count: number }) => `${count} or more`,
    leaders: ({ count }: { count: number }) =>
      `${count} ${plural(count, { one: 'leader', other: 'leaders' })}`,
    lacks: ({ missing, pieces }: { missing: number; pieces: number }) =>
      `lacks ${missing} of ${pieces} ${plural(pieces, { one: 'piece', other: 'pieces' })}`,
    copyMark: 'from my shelf',
    piece: ({ number, strand, size }: { number: number; strand: string; size: string }) =>
      `piece ${number}, ${strand} ${size}`,
    noSpool: ({ piece }: { piece: string }) => `${piece}: no such spool.`,
    tooShort: ({ piece }: { piece: string }) => `${piece}: not enough left on it.`,
    lacksPiece: ({ piece }: { piece: string }) => `Lacks ${piece}`,
    noneNear: 'Nothing on the shelf comes near it.',
    copyWith: ({ spool }: { spool: string }) => `Copy with ${spool}`,
    sameAgain: 'changes next to nothing',
    byMicrometer: 'By your micrometer',
    asLabelled: 'as labelled',
    measuredPiece: ({ piece, changes }: { piece: string; changes: string }) =>
      `${piece}: ${changes}`,
    whole: ({ changes }: { changes: string }) => `The leader: ${changes}`,
    copyMeasured: 'Copy with the measured diameters',
    complete:
      'All its strands are here. Put your micrometer on them to see what the leader really is.',
  },
})
