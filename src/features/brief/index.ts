export { default as BriefView } from './View.vue'
