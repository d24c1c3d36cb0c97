import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { sha256 } from '../../../src/maths/sha256.ts'

/** What stands of a job's output, and what is wrong with it. */
export interface Standing {
  is: 'old' | 'fresh' | 'moved away'
  faults: string[]
}

interface Told {
  workOrder: string
  /** Every text its test log has had, the newest last. */ logs: readonly string[]
}

/** Looks at a job's output with nothing of the program's own: where it stands, or whole where a kill between two renames left it. */
export function standingOutput(out: string, job: Told): Standing {
  const folder = join(out, job.workOrder)
  if (existsSync(folder)) {
    const { log, faults } = contents(folder)
    return {
      is: log === sha256(job.logs.at(-1)!) ? 'fresh' : 'old',
      faults: [...faults, ...everWas(log, job)],
    }
  }
  const aside = movedAway(out, job.workOrder)
  if (aside === undefined) return { is: 'moved away', faults: [`${job.workOrder} stands nowhere`] }
  const { log, faults } = contents(aside)
  return { is: 'moved away', faults: [...faults, ...everWas(log, job)] }
}

const everWas = (log: string | undefined, { workOrder, logs }: Told): string[] =>
  logs.some((text) => sha256(text) === log) ? [] : [`${workOrder} was made from an input that never was`]

function movedAway(out: string, workOrder: string): string | undefined {
  return readdirSync(out)
    .filter((name) => name.startsWith('.burnline-tmp-'))
    .flatMap((name) =>
      readdirSync(join(out, name))
        .filter((old) => old.startsWith('old-'))
        .map((old) => join(out, name, old, workOrder)),
    )
    .find((path) => existsSync(path))
}

/** Digest of the log an output was made from, and where its files are not what its manifest says. */
function contents(folder: string): { log: string | undefined; faults: string[] } {
  const manifest = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as Record<
    'inputs' | 'outputs',
    { file: string; sha256: string }[]
  >
  const faults = manifest.outputs
    .filter(
      ({ file, sha256: stated }) =>
        !existsSync(join(folder, file)) || sha256(readFileSync(join(folder, file))) !== stated,
    )
    .map(({ file }) => `${file} is not what its manifest says`)
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  )
  if (files.length !== manifest.outputs.length + 1)
    faults.push(`${files.length} files, ${manifest.outputs.length} in the manifest`)
  return { log: manifest.inputs.find(({ file }) => file === 'test-log.csv')?.sha256, faults }
}
