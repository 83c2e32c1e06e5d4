export { default as LibraryView } from './View.vue'
