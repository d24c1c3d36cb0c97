import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { peekFile } from '../../../src/peek/peek-file.ts'
import { sayPeek } from '../../../src/peek/say-peek.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import { TEXT_SEEDS } from './capture-reader.ts'
import { CAPTURE_PIECES } from './mutate.ts'
import { Finding } from './outcome.ts'
import type { MutatedReader } from './reader.ts'
import { stampedCapture } from './small-job.ts'

/** A look at a file about which nothing is known: it may say anything that is finite, on lines of plain signs. */
export function peekReader(folder: string): MutatedReader {
  const texts = loadTexts('en')
  const path = join(folder, 'fuzz.csv')
  return {
    name: 'peek',
    seeds: [...TEXT_SEEDS, { name: 'ignition', bytes: stampedCapture() }],
    pieces: CAPTURE_PIECES,
    read: async (bytes) => {
      writeFileSync(path, bytes)
      const look = await peekFile(path, { file: 'fuzz.csv', sampleRateHz: undefined })
      allFinite(look.peeked, 'peeked')
      const odd = sayPeek(texts, look, { width: 60, plain: true }).find((line) => /[^\x20-\x7e]/.test(line))
      if (odd !== undefined) throw new Finding(`a line with odd signs: ${JSON.stringify(odd)}`)
      return look.peeked.problems.map((p) => ({ ...p, severity: 'warn' as const }))
    },
  }
}

function allFinite(value: unknown, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Finding(`${path} is ${value}`)
  if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) allFinite(inner, `${path}.${key}`)
}
