import { relative } from 'node:path'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Files that take over seven seconds, longest first: begun last, one of them would keep one processor busy alone. */
const LONG = [
  'conclusion/workshop-jobs',
  'package/package',
  'onboard/walk',
  'onboard/unseen',
  'cli/batch',
  'cli/short-of',
  'chain/report-languages',
  'report/overflow',
  'cli/verify',
  'evidence/ledger-file',
  'cli/reading-limits',
  'verdicts/gates/captures',
  'chain/long-log',
  'test-log/spray/traced-caps',
  'cli/pipes',
  'cli/signals',
  'records/said-again',
  'ignition/ac-coupled',
  'ignition/model-captures',
  'composed/cases',
  'cli/same-bytes',
  'readme/readme',
  'verdicts/shapes',
  'demo/demo-jobs',
  'chain/odd-jobs',
  'cli/look-and-draft',
  'cli/shop-and-reissue',
  'chain/print',
  'cli/own-texts',
  'bench/fuzz/run-fuzz',
  'verdicts/causes/cases',
  'verdicts/history/judge-history',
  'chain/known-captures',
  'report/render-report',
  'report/conformance',
  'cli/report',
  'composed/short-run',
  'seal/hostile-json',
  'seal/hostile-pdf',
  'ignition/find-events',
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
