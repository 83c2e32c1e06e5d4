export { default as App } from './App.vue'
