export { default as ExplanationView } from './View.vue'
