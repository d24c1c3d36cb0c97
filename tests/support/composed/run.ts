import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { NO_STORE } from '../../../src/chain/measured-store.ts'
import { runJob } from '../../../src/chain/run-job.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'

const texts = loadTexts('en')
export async function runFolder(files: ReadonlyMap<string, string>) {
  const folder = mkdtempSync(join(tmpdir(), 'composed-'))
  try {
    for (const [path, text] of files) {
      mkdirSync(dirname(join(folder, path)), { recursive: true })
      writeFileSync(join(folder, path), text)
    }
    return await runJob(
      folder,
      {
        page: 'A4',
        version: '0',
        embedCaptures: false,
        made: { program: '', templates: {}, options: {} },
        store: NO_STORE,
      },
      texts,
    )
  } finally {
    rmSync(folder, { recursive: true })
  }
}
