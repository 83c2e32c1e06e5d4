export { default as CastView } from './View.vue'
