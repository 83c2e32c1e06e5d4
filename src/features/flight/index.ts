export { default as FlightView } from './View.vue'
