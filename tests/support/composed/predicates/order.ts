import type { Result } from '../../../../src/records/result.ts'

/** What a conclusion says, without the marks and lines that follow the order in which things were noted. */
export function orderless(result: Result): unknown {
  const c = result.conclusion!
  const bare = (finding: (typeof c.findings)[number]) => ({
    ...finding,
    id: '',
    marks: [],
    explained_by: finding.explained_by !== null,
  })
  const sorted = (list: readonly unknown[]) => list.map((x) => JSON.stringify(x)).toSorted()
  return {
    findings: sorted(c.findings.map(bare)),
    classes: [c.as_found.class, c.now.class],
    faults: sorted(
      c.faults.map((f) => ({ ...f, id: '', explains: f.explains.length, against: f.against.length })),
    ),
    repair: [c.repair.verdict, c.repair.reason.key, c.repair.rests_on, c.repair.left],
    next: c.next,
    headline: c.headline.text,
    verdicts: sorted(result.cylinders.map((x) => [x.stage, x.cylinder, x.verdict])),
  }
}
