export { default as ClassView } from './View.vue'
