import { relative } from 'node:path'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Files that take over five seconds, longest first: begun last, one of them would keep one processor busy alone. */
const LONG = [
  'package/package',
  'cli/batch',
  'chain/report-languages',
  'report/overflow',
  'cli/verify',
  'evidence/ledger-file',
  'verdicts/gates/captures',
  'composed/cases',
  'ignition/model-captures',
  'report/pages/page-one-kinds',
  'cli/reading-limits',
  'cli/same-bytes',
  'report/pages/marks',
  'ignition/ac-coupled',
  'chain/known-captures',
  'report/render-report',
  'cli/shop-and-reissue',
  'verdicts/shapes',
  'report/pages/demo-pages',
  'chain/odd-jobs',
  'verdicts/causes/cases',
  'metrics/coverage',
  'cli/report',
  'demo/demo-jobs',
  'composed/short-run',
  'readme/readme',
  'batch/worker-pool',
  'report/iso-17025',
  'report/conformance',
  'bench/fuzz/run-fuzz',
].map((name) => `tests/${name}.test.ts`)

/**
 * Files in a process of their own first, since each ends a process that others share; then the long ones; the rest by
 * their size.
 */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const bySize = await super.sort(files)
    const placeOf = ({ moduleId, project }: TestSpecification) => {
      if (project.config.isolate) return -1
      const place = LONG.indexOf(relative(project.config.root, moduleId))
      return place < 0 ? LONG.length : place
    }
    return bySize.toSorted((a, b) => placeOf(a) - placeOf(b))
  }
}
