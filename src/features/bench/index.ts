export { default as BenchView } from './View.vue'
