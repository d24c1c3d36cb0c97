import { JOB_FILE } from '../job/own-files.ts'
import { partsOf } from '../job/parts.ts'
import { jobSchema } from '../job/schema.ts'
import { readYaml } from '../job/yaml-document.ts'

/** A work order in quotes, or a plain one that begins with a letter and cannot be taken for another kind of value. */
const PLAIN_LINE = /^work_order:[ \t]*(?:"([^"\\\n]*)"|'([^'\n]*)'|([A-Za-z][A-Za-z0-9._-]*))[ \t]*(?:#.*)?\r?$/gm
const NOT_WORDS = /^(?:true|false|null|yes|no|on|off|y|n)$/i

/**
 * The work order of a job.yaml, undefined where it has no valid one. A plain line of it is read as it stands, which
 * takes microseconds where a YAML document takes milliseconds; anything else is read as the job reader does.
 */
export function workOrderOf(text: string): string | undefined {
  const [line, another] = [...text.matchAll(PLAIN_LINE)]
  const words = line?.[1] ?? line?.[2] ?? line?.[3]
  if (words !== undefined && another === undefined && !NOT_WORDS.test(words)) {
    return jobSchema.shape.work_order.safeParse(words).data
  }
  return partsOf(readYaml(JOB_FILE, text).data).workOrder
}
