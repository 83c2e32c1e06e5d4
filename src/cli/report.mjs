// npm run --silent report -- file.json ...: the figures of saved leaders, as JSON on stdout.
import { runCommand } from './run.mjs'

await runCommand('report')
