import { createHash } from 'node:crypto'
import { renderSvg } from '../../src/charts/render-svg.ts'
import { JOBS, plansOf } from './chart-jobs.ts'

/** Digest of a job's charts, for a process of its own with other surroundings. */
const hash = createHash('sha256')
for (const plan of plansOf(JOBS[2]![1])) hash.update(await renderSvg(plan.spec))
console.log(hash.digest('hex'))
