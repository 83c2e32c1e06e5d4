import { createPinia } from 'pinia'
import { createApp, h } from 'vue'

createApp({ render: () => h('main', [h('h1', 'Taperwright')]) })
  .use(createPinia())
  .mount('#app')
