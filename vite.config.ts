import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { HEADERS } from './src/offline/headers.ts'
import { notices } from './src/offline/notices.ts'
import { offline } from './src/offline/plugin.ts'

export default defineConfig({
  // Relative addresses let the built page live in any folder of any server.
  base: './',
  plugins: [vue(), notices(), offline()],
  preview: { headers: HEADERS },
  worker: { format: 'es' },
  build: {
    // Four kB less to fetch than the built-in minifier leaves, for some seconds more of building.
    minify: 'terser',
    terserOptions: { module: true, ecma: 2020, compress: { passes: 3 } },
    // Older targets make the minifier rewrite light-dark(), which breaks switching the theme.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    rolldownOptions: {
      output: {
        codeSplitting: {
          // What the first screen and a dialog share would be cut into small files that compress badly.
          groups: [{ name: 'first', tags: ['$initial'] }],
        },
      },
    },
  },
  define: {
    __VUE_OPTIONS_API__: false,
    __VUE_PROD_DEVTOOLS__: false,
  },
  test: {
    name: 'unit',
    // A file that stands components into a page asks for happy-dom in its first line.
    environment: 'node',
    // A test whose loop had nothing to go through has shown nothing.
    expect: { requireAssertions: true },
    // Property tests take seconds on a busy machine; a hung one is still found.
    testTimeout: 60_000,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
  },
})
