export { default as LeaderInUseView } from './View.vue'
