export { default as ModelView } from './View.vue'
