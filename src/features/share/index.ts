export { default as ShareView } from './View.vue'
export { default as ArrivalView } from './Arrival.vue'
export { default as PasteView } from './PasteView.vue'
