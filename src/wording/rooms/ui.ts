import { room } from '../language'

export const ui = room('ui', {
  undo: 'Undo',
  redo: 'Redo',
})
