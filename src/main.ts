import { createPinia } from 'pinia'
import { createApp } from 'vue'
import { App } from './app'
import { startCasts, startStores } from './stores/boot'
import './styles/tokens.css'
import './styles/base.css'

const pinia = createPinia()
createApp(App).use(pinia).mount('#app')
// The bench stands at once on a shipped formula; what is stored arrives when the database opens.
void startStores(pinia)
requestAnimationFrame(() => void startCasts(pinia))
