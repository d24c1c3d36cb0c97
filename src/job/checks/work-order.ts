import { hasControl } from '../../problems/control-characters.ts'
import { problem } from '../../problems/problem.ts'
import type { Check } from './check.ts'

/** Longest name that every common file system takes, with room for what is written around it. */
const MOST_BYTES = 200
/** Characters that some file system refuses in a name, path separators among them. */
const REFUSED = /[/\\:*?"<>|]/
/** Names that some systems keep for devices. */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\..*)?$/i

/** True for a name that a folder can have wherever the output is filed. */
export const isFolderName = (name: string): boolean =>
  !REFUSED.test(name) &&
  !hasControl(name) &&
  !/\p{Cs}/u.test(name) && // half a character becomes the same mark in every name
  !DEVICES.test(name) &&
  !name.startsWith('.') &&
  !name.endsWith('.') &&
  Buffer.byteLength(name) <= MOST_BYTES

/** The work order names the output folder, so it has to be usable as a folder name. */
export const workOrder: Check = function* ({ workOrder: name }, yaml) {
  if (name === undefined || isFolderName(name)) return
  yield problem('wrong-value', yaml.valuePlace(['work_order']), {
    key: 'work_order',
    found: yaml.written(['work_order']),
    expected: 'phrase.folder-name',
  })
}
