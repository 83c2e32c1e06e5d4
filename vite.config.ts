import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { offline } from './src/offline/plugin.ts'

const SHARED =
  /node_modules\/(vue|@vue|pinia|chart\.js|valibot)|src\/(engine|wording|ui|stores|documents|charts)\//
/** Fetched after the first screen stands: the other formulas, and everything that simulates a cast. */
const LATER = new RegExp(
  [
    'shippedOthers',
    'charts/picture',
    'documents/(backup|castFile|checksum|csv|kept|lesson|lessonLeaders|lessonLink|link|nearest|packed|recipe|shed|words)',
    'engine/(advice|compare|explore|whatChanges)',
    'engine/bench/(batch|pack|shed|spool|substitute|tieable)',
    'engine/cast/(attribution|band|castCase|chain|forces|fromLeader|guess|kernel|leastSpeed|reach|runCast|state|step)',
    'engine/checks/recordClauses',
    'engine/tackle/(falling|flyWater|lineStations|reel|rodAndLine)',
    'stores/(address|backup|brief|casts|classroom|deflate|download|exampleShelf|flights|flown|formulas|inUse|lessonLinks|lessons|links|offline|persistence|shed|versions)',
    'ui/(ChoiceField|FigureTip|QrCode|hashRest)',
    'wording/(advice|changes|compare|explore|findings|knots|shed)',
  ].join('|'),
)

function isForFirstScreen(id: string): boolean {
  return SHARED.test(id) && !LATER.test(id)
}

export default defineConfig({
  // Relative addresses let the built page live in any folder of any server.
  base: './',
  plugins: [vue(), offline()],
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
          groups: [{ name: 'first', test: isForFirstScreen }],
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
    environment: 'happy-dom',
    // Property tests take seconds on a busy machine; a hung one is still found.
    testTimeout: 60_000,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
  },
})
