/** Runs a command of the joined program, then keeps the code compiled on the way beside it; see bundle.mjs. */
import { program } from '../dist/cli/load-joined.js'

await program.load('run.cjs').ended
program.keepCode()
