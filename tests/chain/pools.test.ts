import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import type { Result } from '../../src/records/result.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { PLAIN } from '../support/plain-options.ts'

/**
 * Truth: circuit simulation (tests/support/fixture-captures.ts), four cylinders, all level. Its one capture is cut into
 * recordings of 0.9 s, none of which holds ten turns of a cylinder.
 */
const FIXTURE = fileURLToPath(new URL('../fixtures/captures/08-four-level-hunt-clamp', import.meta.url))
const root = mkdtempSync(join(tmpdir(), 'pools-'))
afterAll(() => rmSync(root, { recursive: true }))

let result: Result
let files: Map<string, Uint8Array | string>
beforeAll(async () => {
  mkdirSync(join(root, 'captures'))
  cpSync(join(FIXTURE, 'test-log.csv'), join(root, 'test-log.csv'))
  const job = parse(readFileSync(join(FIXTURE, 'job.yaml'), 'utf8')) as {
    captures: Record<string, unknown>[]
  }
  const [header, ...rows] = gunzipSync(readFileSync(join(FIXTURE, 'captures/before.csv.gz')))
    .toString()
    .split('\n')
  const rate = (job.captures[0]!['time'] as { sample_rate_hz: number }).sample_rate_hz
  const parts = [0, 1.2].map((from) => rows.slice(from * rate, (from + 0.9) * rate))
  parts.forEach((part, i) =>
    writeFileSync(join(root, `captures/part-${i + 1}.csv`), `${header}\n${part.join('\n')}\n`),
  )
  job.captures = parts.map((_, i) => ({ ...job.captures[0], file: `captures/part-${i + 1}.csv` }))
  writeFileSync(join(root, 'job.yaml'), stringify(job))
  const output = await runJob(root, { ...PLAIN, store: NO_STORE }, loadTexts('en'))
  result = output.result
  files = output.files
}, 60_000)

const POOL = 'captures/part-1.csv+captures/part-2.csv'

describe('captures too short by themselves are taken together', () => {
  test('alone they carry no verdict, together they do', () => {
    const alone = result.cylinders.filter((c) => c.capture !== POOL)
    const together = result.cylinders.filter((c) => c.capture === POOL)
    expect(alone.map((c) => c.verdict)).toEqual(Array.from({ length: 8 }, () => 'not judged'))
    expect(together.map((c) => c.verdict)).toEqual(['level', 'level', 'level', 'level'])
    expect(together.map((c) => c.mark)).toEqual(['P1·1', 'P1·2', 'P1·3', 'P1·4'])
    together.forEach((c, i) => expect(c.events).toBe(alone[i]!.events + alone[i + 4]!.events))
  })

  test('the engine is spoken of by the pool', () => {
    expect(result.pools).toEqual([
      {
        mark: 'P1',
        capture: POOL,
        files: POOL.split('+'),
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
      },
    ])
    expect(result.engine.before).toMatchObject({ pattern: 'none', says: { args: { judged: 4 } } })
  })

  test('what differs between the captures is in the interval, with a line of its own', () => {
    for (const { figures } of result.cylinders.filter((c) => c.capture === POOL)) {
      const rise = figures['late_rise_pct']!
      if (!('value' in rise)) throw new Error('late rise is absent')
      expect(rise.budget.find((line) => line.source === 'captures')!.u).toBeGreaterThan(0)
      expect(Math.hypot(...rise.budget.map((line) => line.u))).toBeCloseTo(
        (rise.high - rise.low) / (2 * 1.96),
        0,
      )
    }
  })

  test('the row stands in cylinders.csv, its capture the files joined by +', () => {
    const rows = String(files.get('cylinders.csv')).split('\r\n')
    expect(rows.filter((row) => row.startsWith(`before,${POOL},`)).length).toBe(4)
  })
})
