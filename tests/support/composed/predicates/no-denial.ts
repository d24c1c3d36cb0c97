import { conclusionOf, verdictsIn, type Predicate, type Seen } from './predicate.ts'

const CALM =
  /(every|all) (cylinders?|of them)[^.]{0,40}burns? as (it|they) should|no cylinder is clearly out of order|engine is in order|nothing (is )?wrong/i
const NOT_SAID =
  /can show (that )?it worked|(cannot|can not|do not|does not) [^.]{0,40}(is fixed|it worked)|is it fixed\?/gi
const WORKED = /it worked|has worked|is fixed|is mended|(fixed|mended|in order now)\? ?(--|-|:)? ?yes\b/i
const NONE_AFTER =
  /no (recording|capture)[^.]{0,20} (that )?(can|could) be judged was taken after|no capture taken after it that can be judged|no capture after it can be judged/i

/** No sentence denies a figure elsewhere: words of headline, page one and sentences against verdicts, and the records against each other. */
export const noDenial: Predicate = {
  id: '7 no denial',
  breaches(seen) {
    const { result, page, truth } = seen
    const { headline, as_found: found, now, repair } = conclusionOf(seen)
    const sentences = [
      headline.text,
      ...result.summary.map(({ text }) => text),
      result.repair.says.text,
      repair.reason.text,
    ].join(' ')
    const said = `${sentences} ${page ?? ''}`.replace(NOT_SAID, '')
    const after = [...verdictsIn(result, 'after').values()]
    const everInOrder = found.class === 'in order' || now.class === 'in order'
    const fault = truth ? truth.found.length > 0 && truth.shown.length > 0 : found.class === 'fault'
    return [
      ...notReadAgain(seen),
      ...(CALM.test(said) && (!everInOrder || (fault && CALM.test(page ?? '') && found.class === 'in order'))
        ? [`says "${CALM.exec(said)![0]}"`]
        : []),
      ...(WORKED.test(said) && !['repair confirmed', 'improved, not in order'].includes(repair.verdict)
        ? [`says "${WORKED.exec(said)![0]}" of a repair that is ${repair.verdict}`]
        : []),
      ...(after.some((v) => v !== 'not judged') && NONE_AFTER.test(said)
        ? ['says that no capture after can be judged']
        : []),
      ...recordsDiffer(seen),
    ]
  },
}

function recordsDiffer({ result, cylindersCsv }: Parameters<Predicate['breaches']>[0]): string[] {
  const [head, ...rows] = cylindersCsv.trim().split(/\r?\n/)
  const at = (name: string) => head!.split(',').indexOf(name)
  const plain = rows.map((row) => row.split(','))
  const csv = plain
    .map((cells) => [cells[at('stage')], cells[at('cylinder')], cells[at('verdict')]].join(' '))
    .toSorted()
  const json = result.cylinders.map((c) => [c.stage, c.cylinder, c.verdict].join(' ')).toSorted()
  return JSON.stringify(csv) === JSON.stringify(json) ? [] : ['cylinders.csv and result.json differ']
}

/** Steps whose readings page one may miss after the work; what is there may not be missed. */
const AGAIN: Readonly<Record<string, string>> = { 'page.again.vacuum': 'vacuum', 'page.again.code': 'code' }

/** "Not read again" of what the log has after the last work. */
function notReadAgain({ result }: Seen): string[] {
  const last = result.tests.findLast(({ step }) => step === 'repair')?.at ?? ''
  return result.conclusion.page_one.unchecked.flatMap(({ key }) => {
    const step = AGAIN[key]
    const again = result.tests.find(
      (t) => t.step === step && t.stage === 'after' && Date.parse(t.at) >= (Date.parse(last) || 0),
    )
    return step !== undefined && again
      ? [`says that ${step} was not read again, and ${again.mark} reads it`]
      : []
  })
}
