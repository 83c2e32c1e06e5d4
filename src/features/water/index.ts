export { default as WaterView } from './View.vue'
