import { room } from '../language'

export const ui = room('ui', {
  undo: 'Undo',
  redo: 'Redo',
  missing: {
    told: 'This part of the app could not be fetched: the network or the server does not answer. What you made is kept.',
    retry: 'Try again',
  },
})
