import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { NO_STORE } from '../../../src/chain/measured-store.ts'
import { renderOutputs } from '../../../src/chain/phases/render.ts'
import { runJob, type PageOptions } from '../../../src/chain/run-job.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'

/**
 * A process of its own: measures a job once, then draws its charts and its PDF again and again, and prints as JSON the
 * processor time of the first time and the least and median of those after it, all of its threads, with the PDF's size.
 *
 *   node tests/bench/run.mjs speed/document-child <job-folder> <rounds>
 */
const [folder, rounds] = [process.argv[2]!, Number(process.argv[3])]
const RECORDS = ['result.json', 'cylinders.csv', 'events.csv', 'tests.csv']
const texts = loadTexts('en')
const options: PageOptions = { page: 'A4', version: 'bench', embedCaptures: false }
const { result, drawn, files } = await runJob(
  folder,
  { ...options, program: 'bench', store: NO_STORE },
  texts,
)
const records = new Map(RECORDS.map((name) => [name, String(files.get(name))]))
const inputFile = (file: string) => readFile(join(folder, file))

const cpuMs: number[] = []
let pdfBytes = 0
for (let round = 0; round < rounds; round++) {
  const before = process.cpuUsage()
  const outputs = await renderOutputs({ result, drawn, texts, records, inputFile, embedCaptures: false })
  const { user, system } = process.cpuUsage(before)
  cpuMs.push((user + system) / 1000)
  pdfBytes = outputs.get('report.pdf')!.length
}
const [, ...warm] = cpuMs
const sorted = warm.toSorted((a, b) => a - b)
process.stdout.write(
  JSON.stringify({
    leastMs: sorted[0],
    medianMs: sorted[sorted.length >> 1],
    pdfBytes,
    photos: result.job.photos.length,
  }),
)
