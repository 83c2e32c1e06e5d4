export { default as PrintView } from './View.vue'
