// npm run schema: writes public/leader.schema.json anew after a change of src/documents/schema.ts.
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

const { module } = await runnerImport(at('./leader-schema.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
writeFileSync(at('../../public/leader.schema.json'), module.leaderSchemaText())
