export { default as SpoolsView } from './View.vue'
