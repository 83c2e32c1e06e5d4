// npm run --silent cast -- case.json: casts flown by the chain simulation, as JSON on stdout.
import { runCommand } from './run.mjs'

await runCommand('cast')
