import { existsSync } from 'node:fs'
import { join } from 'node:path'

/** Files of which any makes a folder an output: one whose manifest was taken away is still one, so that it shows. */
const MARKS = ['manifest.json', 'report.pdf', 'result.json']

/** Whether a folder is, or was, the output of a job; false for anything that is no folder. */
export const isOutput = (folder: string): boolean => MARKS.some((file) => existsSync(join(folder, file)))
