export { default as SheetsView } from './View.vue'
