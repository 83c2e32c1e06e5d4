import js from '@eslint/js'
import { defineConfig, globalIgnores } from 'eslint/config'
import vue from 'eslint-plugin-vue'
import vueAccessibility from 'eslint-plugin-vuejs-accessibility'
import ts from 'typescript-eslint'
import { importDirection } from './tests/support/import-direction.mjs'

const browserGlobals = ['window', 'document', 'navigator', 'localStorage', 'sessionStorage']
const impureGlobals = ['Date', 'console', 'process', 'performance', 'crypto', 'globalThis', 'self']
const timers = ['setTimeout', 'setInterval', 'requestAnimationFrame', 'fetch']

const nodeGlobals = { process: 'readonly', URL: 'readonly', console: 'readonly' }

// How code is laid out is the formatter's business, not the linter's.
const layoutOff = Object.fromEntries(
  [
    'attributes-order',
    'first-attribute-linebreak',
    'html-closing-bracket-newline',
    'html-closing-bracket-spacing',
    'html-indent',
    'html-quotes',
    'html-self-closing',
    'max-attributes-per-line',
    'multiline-html-element-content-newline',
    'mustache-interpolation-spacing',
    'no-multi-spaces',
    'no-spaces-around-equal-signs-in-attribute',
    'singleline-html-element-content-newline',
  ].map((name) => [`vue/${name}`, 'off']),
)

export default defineConfig(
  globalIgnores(['dist', 'coverage', 'public', 'test-results', 'playwright-report']),
  js.configs.recommended,
  {
    files: ['**/*.ts', '**/*.vue'],
    extends: [ts.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: { projectService: true, extraFileExtensions: ['.vue'] },
    },
    rules: {
      // Vue-tsc and tsc know every name; asking ESLint too only repeats them, wrongly.
      'no-undef': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
    },
  },
  {
    files: ['**/*.vue'],
    extends: [vue.configs['flat/recommended'], vueAccessibility.configs['flat/recommended']],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      ...layoutOff,
      // Template refs get their types from vue-tsc, which ESLint does not run; it would call them unsafe.
      ...Object.fromEntries(
        ['argument', 'assignment', 'call', 'member-access', 'return'].map((kind) => [
          `@typescript-eslint/no-unsafe-${kind}`,
          'off',
        ]),
      ),
      // Figures carry their unit in their name (total_m), props like all others.
      'vue/prop-name-casing': 'off',
      // A label may stand beside its field (for/id) or around it; either names the field.
      'vuejs-accessibility/label-has-for': [
        'error',
        { required: { some: ['nesting', 'id'] }, allowChildren: true },
      ],
      'vue/block-lang': ['error', { script: { lang: 'ts' } }],
      'vue/component-api-style': ['error', ['script-setup']],
      'vue/multi-word-component-names': 'off',
      'vue/no-v-html': 'error',
      // A prop that is not given is undefined; the type already says so.
      'vue/require-default-prop': 'off',
    },
  },
  {
    files: ['**/*.mjs', '**/*.js'],
    languageOptions: { globals: nodeGlobals },
  },
  {
    files: ['src/offline/service-worker.js'],
    languageOptions: {
      globals: {
        self: 'readonly',
        caches: 'readonly',
        fetch: 'readonly',
        Request: 'readonly',
        crypto: 'readonly',
      },
    },
  },
  {
    files: ['src/**'],
    plugins: { house: { rules: { 'import-direction': importDirection } } },
    rules: { 'house/import-direction': 'error' },
  },
  {
    // The same numbers in, the same numbers out, wherever and whenever it runs.
    files: ['src/engine/**', 'src/documents/**', 'src/wording/**', 'src/charts/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...[...browserGlobals, ...impureGlobals, ...timers].map((name) => ({
          name,
          message: 'Pure folders know no clock, no page and no console: pass in what is needed.',
        })),
      ],
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'random',
          message: 'Results must repeat: pass in a seeded source of numbers.',
        },
      ],
    },
  },
)
