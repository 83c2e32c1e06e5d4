import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  // Relative addresses let the built page live in any folder of any server.
  base: './',
  plugins: [vue()],
  worker: { format: 'es' },
  build: {
    // Older targets make the minifier rewrite light-dark(), which breaks switching the theme.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
  },
  define: {
    __VUE_OPTIONS_API__: false,
    __VUE_PROD_DEVTOOLS__: false,
  },
  test: {
    name: 'unit',
    environment: 'happy-dom',
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
  },
})
