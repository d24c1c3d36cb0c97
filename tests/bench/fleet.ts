import { once } from 'node:events'
import { createWriteStream, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { finished } from 'node:stream/promises'
import { runFleet } from '../../src/fleet-run/run-fleet.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'

/**
 * Rolls up invented records of many jobs and prints wall time and peak memory of each size: memory must not grow with it.
 *
 *   node tests/bench/run.mjs fleet [jobs...]     default 1000 10000 100000; each size in the order given, in one process
 */
const sizes = process.argv.slice(2).map(Number)
const folder = mkdtempSync(join(tmpdir(), 'burnline-bench-fleet-'))
try {
  for (const jobs of sizes.length > 0 ? sizes : [1000, 10_000, 100_000]) {
    const records = join(folder, `${jobs}.ndjson`)
    await writeRecords(records, jobs)
    const startMs = performance.now()
    let peakBytes = 0
    const watch = setInterval(() => {
      peakBytes = Math.max(peakBytes, process.memoryUsage.rss())
    }, 20)
    await runFleet([records], {
      out: join(folder, `fleet-${jobs}`),
      page: 'A4',
      version: '0',
      texts: loadTexts('en'),
    })
    clearInterval(watch)
    const peak = Math.max(peakBytes, process.memoryUsage.rss()) / 2 ** 20
    console.log(
      `${jobs} jobs  ${((performance.now() - startMs) / 1000).toFixed(1)} s  peak ${peak.toFixed(0)} MiB (process ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB)`,
    )
  }
} finally {
  rmSync(folder, { recursive: true, force: true })
}

/** One record a line, of about two jobs a vehicle, in no order. */
async function writeRecords(path: string, jobs: number): Promise<void> {
  const random = makeRandom(20260304)
  const file = createWriteStream(path)
  for (let i = 0; i < jobs; i++) {
    const vehicle = Math.floor(random.uniform() * (jobs / 2))
    if (!file.write(`${JSON.stringify(record((i * 7919) % jobs, vehicle, random.uniform()))}\n`))
      await once(file, 'drain')
  }
  file.end()
  await finished(file)
}

function record(order: number, vehicle: number, chance: number): object {
  const odd = chance < 0.6 ? [1 + (vehicle % 4)] : []
  const date = `${2018 + (order % 8)}-${String(1 + (order % 12)).padStart(2, '0')}-${String(1 + (order % 28)).padStart(2, '0')}`
  const stage = {
    pattern: odd.length ? `cylinder ${odd[0]}` : 'none',
    cylinders: odd,
    speed: { mean_rpm: { value: 700 }, swing_rpm: { value: 20 } },
  }
  return {
    format: 1,
    program: { name: 'burnline', version: '0' },
    job: {
      work_order: `J-${order}`,
      opened: date,
      closed: null,
      customer: { name: 'Example Fleet' },
      vehicle: {
        vin: `1M8GDM9AXKP${100000 + vehicle}`,
        vin_check: 'passes',
        unit_number: String(vehicle),
        year: 2015,
        make: 'Example',
        model: 'Van',
        odometer: { value: 1000 * (order % 200), unit: 'km' },
      },
      instrument: { voltage_uncertainty_stated: true },
    },
    captures: [{ remarks: [] }],
    cylinders: [1, 2, 3, 4].map((cylinder) => ({
      stage: 'before',
      cylinder,
      verdict: odd.includes(cylinder) ? 'lean' : 'level',
      figures: {
        late_rise_pct: { value: odd.includes(cylinder) ? 30 : 3 },
        firing_kv: { value: 9 },
        burn_ms: { value: 1.5 },
      },
    })),
    engine: { before: stage, after: null },
    tests: [],
    causes: odd.length ? [{ id: 'leak-runner-joint', probability: 0.9 }] : [],
    ledger: { kind: 'clear' },
    repair: {
      verdict: chance < 0.3 ? 'repair confirmed' : 'not checked',
      work: odd.length ? ['Work done'] : [],
    },
    limits: [],
    problems: [],
  }
}
