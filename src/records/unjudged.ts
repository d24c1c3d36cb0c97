import type { Result } from './result.ts'

/** Cylinders of one stage that no capture could judge, and why, in the report's language. */
export interface Unjudged {
  stage: 'before' | 'after'
  cylinders: readonly number[]
  /** The reason, then what the capture's remark says is to be recorded instead, where there is one. */
  why: readonly string[]
}

/** Cylinders without a verdict, those with the same reasons together. */
export function unjudgedOf({ cylinders, captures }: Pick<Result, 'cylinders' | 'captures'>): Unjudged[] {
  const groups = new Map<string, { stage: Unjudged['stage']; cylinders: number[]; why: string[] }>()
  for (const row of cylinders) {
    const own = cylinders.filter((c) => c.stage === row.stage && c.cylinder === row.cylinder)
    if (own[0] !== row || own.some(({ verdict }) => verdict !== 'not judged')) continue
    const remark = captures
      .find(({ file }) => file === row.capture)
      ?.remarks.find(
        ({ forbids, cylinders: of }) =>
          (forbids.includes('all') || forbids.includes('mixture')) &&
          (of.length === 0 || of.includes(row.cylinder)),
      )
    const why = [row.reason.text, ...(remark ? [remark.says.text] : [])]
    const key = `${row.stage} ${why.join(' ')}`
    const group = groups.get(key)
    if (group) group.cylinders.push(row.cylinder)
    else groups.set(key, { stage: row.stage, cylinders: [row.cylinder], why })
  }
  return [...groups.values()]
}
