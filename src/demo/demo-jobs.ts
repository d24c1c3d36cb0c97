import type { DemoJob } from './demo-job.ts'
import { bankOneHeldRevsV6 } from './jobs/bank-one-held-revs-v6.ts'
import { bankTwoGasketV6 } from './jobs/bank-two-gasket-v6.ts'
import { brakeHoseLeakV8 } from './jobs/brake-hose-leak-v8.ts'
import { plugTopResistance } from './jobs/plug-top-resistance.ts'
import { runnerThreeFrames } from './jobs/runner-three-frames.ts'
import { slowRecorderVan } from './jobs/slow-recorder-van.ts'
import { thirdCylinderValve } from './jobs/third-cylinder-valve.ts'
import { wastedSparkRunnerTwo } from './jobs/wasted-spark-runner-two.ts'

/** Every demo job: one invented shop, one invented week. */
export const DEMO_JOBS: readonly DemoJob[] = [
  brakeHoseLeakV8,
  bankTwoGasketV6,
  thirdCylinderValve,
  wastedSparkRunnerTwo,
  slowRecorderVan,
  plugTopResistance,
  bankOneHeldRevsV6,
  runnerThreeFrames,
]
