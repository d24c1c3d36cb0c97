import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { captureReader, gzipReader } from './capture-reader.ts'
import { jobReader, logReader } from './job-readers.ts'
import { peekReader } from './peek-reader.ts'
import { mutating, type FuzzReader } from './reader.ts'
import { spelledLogReader } from './spelled-log.ts'
import { spelledCaptureReader, spelledTraceReader } from './spelled-readers.ts'

/** Every reader of foreign files, by name; each works in a folder of its own. */
const MAKERS: Readonly<Record<string, (folder: string) => FuzzReader>> = {
  job: (folder) => mutating(jobReader(folder)),
  log: (folder) => mutating(logReader(folder)),
  capture: (folder) => mutating(captureReader(folder)),
  gzip: (folder) => mutating(gzipReader(folder)),
  peek: (folder) => mutating(peekReader(folder)),
  'spelled-capture': spelledCaptureReader,
  'spelled-trace': spelledTraceReader,
  'spelled-log': spelledLogReader,
}
export const READERS: readonly string[] = Object.keys(MAKERS)

/** @param scratch  a folder that may be filled */
export function readerNamed(name: string, scratch: string): FuzzReader {
  const folder = join(scratch, name)
  mkdirSync(folder, { recursive: true })
  return MAKERS[name]!(folder)
}
