// npm run --silent report -- file.json ...: the figures of saved leaders, as JSON on stdout.
// This shell only gets report.ts running under plain Node; all the work is in there.
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

// npm moves to the project's folder; file names were typed in the caller's.
if (process.env.npm_lifecycle_event === 'report' && process.env.INIT_CWD) {
  process.chdir(process.env.INIT_CWD)
}

// A reader that has seen enough, such as head, is no failure.
process.stdout.on('error', (error) => {
  if (error.code !== 'EPIPE') throw error
})

const { module } = await runnerImport(at('./report.ts'), {
  configFile: false,
  root: at('../..'),
  logLevel: 'error',
})
// Not process.exit(): a long report must be able to leave through a pipe first.
process.exitCode = await module.main(process.argv.slice(2))
