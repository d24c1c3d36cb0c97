import { openThreadAhead } from './open-ahead.ts'

/** What every call begins with: first what may run beside the loading of the program, then the program. */
openThreadAhead(process.argv.slice(2))
void import('./command-line.ts')
