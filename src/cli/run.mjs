// Gets a command written in TypeScript running under plain Node; all its work is in its own file.
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'

const at = (path) => fileURLToPath(new URL(path, import.meta.url))

/** Runs src/cli/<name>.ts with the arguments of this process. */
export async function runCommand(name) {
  // npm moves to the project's folder; file names were typed in the caller's.
  if (process.env.npm_lifecycle_event === name && process.env.INIT_CWD) {
    process.chdir(process.env.INIT_CWD)
  }
  let isWritten = true
  // A reader that has seen enough, such as head, is no failure; a full disk is one, in a sentence.
  process.stdout.on('error', (error) => {
    if (error.code === 'EPIPE') return
    isWritten = false
    process.exitCode = 1
    process.stderr.write(`The result could not be written: ${error.message}\n`)
  })
  const { module } = await runnerImport(at(`./${name}.ts`), {
    configFile: false,
    root: at('../..'),
    logLevel: 'error',
  })
  // Not process.exit(): a long result must be able to leave through a pipe first.
  const code = await module.main(process.argv.slice(2))
  process.exitCode = isWritten ? code : 1
}
