import { isFolderName } from '../job/checks/work-order.ts'
import { JOB_FILE } from '../job/own-files.ts'
import { partsOf } from '../job/parts.ts'
import { jobSchema } from '../job/schema.ts'
import { readYaml } from '../job/yaml-document.ts'

/** A work order in quotes, or a plain one that begins with a letter and cannot be taken for another kind of value. */
const PLAIN_LINE =
  /^work_order:[ \t]*(?:"([^"\\\n]*)"|'([^'\n]*)'|([A-Za-z][A-Za-z0-9._-]*))[ \t]*(?:#.*)?\r?$/gm
const NOT_WORDS = /^(?:true|false|null|yes|no|on|off|y|n)$/i

/**
 * The work order of a job.yaml, undefined where it has none that can name a folder.
 */
export function workOrderOf(text: string): string | undefined {
  const read = plainLine(text) ?? partsOf(readYaml(JOB_FILE, text).data).workOrder
  const valid = jobSchema.shape.work_order.safeParse(read).data
  return valid !== undefined && isFolderName(valid) ? valid : undefined
}

/**
 * The one plain line of a work order, as it stands: microseconds where a YAML document takes milliseconds. Undefined
 * where it is written in any other way, or twice, and the document has to be read.
 */
function plainLine(text: string): string | undefined {
  const [line, another] = [...text.matchAll(PLAIN_LINE)]
  const words = line?.[1] ?? line?.[2] ?? line?.[3]
  return another === undefined && words !== undefined && !NOT_WORDS.test(words) ? words : undefined
}
