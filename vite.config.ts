import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { HEADERS } from './src/offline/headers.ts'
import { notices } from './src/offline/notices.ts'
import { offline } from './src/offline/plugin.ts'

/** Folders of tests whose modules keep nothing between two tests, and those that stand components into a page. */
const PURE = ['charts', 'documents', 'engine', 'wording']
const PAGE = ['app', 'castViews', 'features', 'ui']
const tests = (folders: readonly string[]) => folders.map((each) => `tests/${each}/**/*.test.ts`)

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
    // A test whose loop had nothing to go through has shown nothing.
    expect: { requireAssertions: true },
    setupFiles: ['tests/support/setup.ts'],
    // Property tests take seconds on a busy machine; a hung one is still found.
    testTimeout: 60_000,
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    projects: [
      {
        extends: true,
        // Pure functions share the modules that they are made of from file to file.
        test: { name: 'pure', environment: 'node', isolate: false, include: tests(PURE) },
      },
      {
        extends: true,
        test: {
          name: 'node',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['node_modules/**', 'tests/browser/**', ...tests(PURE), ...tests(PAGE)],
        },
      },
      {
        extends: true,
        test: { name: 'page', environment: 'happy-dom', include: tests(PAGE) },
      },
    ],
  },
})
