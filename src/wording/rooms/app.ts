import { room } from '../language'

export const app = room('app', {
  draft: {
    back: ({ field, text }: { field: string; text: string }) =>
      `“${text}” was typed into ${field} and not entered. It stands there again: Enter keeps it, Escape drops it.`,
    lost: ({ field, text }: { field: string; text: string }) =>
      `“${text}” was typed into ${field} and not entered; that field is not open any more.`,
  },
  simulation: {
    stopped:
      'The simulation does not run: its part of the app could not be fetched, or was stopped. All else works; leaders are not thrown, and none is judged by how it goes over.',
    again: 'Try again',
  },
  news: {
    title: 'Verdicts may differ from those you know.',
    text: 'Until now every leader was thrown by one and the same cast, and judged in the air. Now each is thrown as its caster would throw it, with the power and aim that suit it, and judged as it lies on the water. Your leaders themselves are unchanged.',
    close: 'Understood',
  },
  help: {
    title: 'Help',
    figures: `Write figures as you speak them: 5X, .006 in, 6 thou, 0.15 mm; 36 in, 7' 6", 1.2 m. What you type is what is kept; the View menu only changes how it is shown.`,
    ways: 'Brief leads from fly, water and fish to a leader; Rig on the bench adds droppers; Water keeps count of the tippet, also without a network. Dotted figures tell their band and source.',
    keysTitle: 'Keys',
    keys: [
      ['Enter, Shift Enter', 'down, up in the table'],
      ['Arrows, Tab', 'to the next cell'],
      ['Escape', 'back to what was written'],
      ['Alt Enter', 'add a piece below'],
      ['Alt Delete', 'delete the piece'],
      ['Alt up, Alt down', 'move the piece'],
      ['Alt D, Alt S, Alt J', 'duplicate, split, join with the next'],
      ['Ctrl Z, Ctrl Shift Z', 'undo, redo'],
      ['Ctrl C, Ctrl V', 'copy rows out, paste rows in'],
      ['Ctrl K', 'formulas'],
    ],
    placesTitle: 'Where things are',
    places:
      'Spools, Tying and Sheets take a formula to the wallet; Class has lessons, leaders side by side, and one thing changed at a time. Share and Versions stand under the table of the bench; recipes and the backup under Formulas.',
    figuresTitle: 'What the figures rest on',
    rests:
      'Stiffness and strength of a strand differ by a factor of two between spools, knots by more; every such figure is a band. How a leader is delivered is flown, some hundreds of casts with all that a caster misses by; until they are in, it says “Checking”. They rank leaders better than they predict one cast. “Common practice” marks what the trade teaches without one author.',
    careTitle: 'Take care',
    care: [
      'Wear glasses and a hat when you cast, and cover your eyes when you pull-test a knot.',
      'Keep well away from overhead lines, and stop in thunder: rods and wet lines conduct.',
      'Too light a tippet plays a fish to death, sooner in warm water.',
      'Lead is banned for angling weights in many places. Local rules on leaders, flies, hooks and weights decide; ask before you fish.',
      'Take every offcut home.',
    ],
  },
})
