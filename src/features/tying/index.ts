export { default as TyingView } from './View.vue'
