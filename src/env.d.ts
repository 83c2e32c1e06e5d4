// For tools that cannot read single-file components; vue-tsc uses the real types.
declare module '*.vue' {
  import type { DefineComponent } from 'vue'
  const component: DefineComponent
  export default component
}
