import type { TestRecord } from '../../records/result.ts'
import { formatArg } from '../../texts/format-quantity.ts'
import { sayer } from '../../texts/say.ts'
import { isPressureUnit, toKpa } from '../../units/pressure.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'
import { isFigureSentence } from './tests.ts'
import { computedWord, pair, quantity, series, stepWord } from './words.ts'

type Texts = PageInput['texts']

/** What was reckoned from the readings of the log, and how likely chance alone is to do as much: a row a test that has any. */
export function testFigures({ result, texts }: PageInput): Section {
  const t = sayer(texts)
  const rows = result.tests.flatMap((test) => {
    const computed = unsaidFigures(test).map(
      ([name, figure]) => `${computedWord(texts, name)} ${figureWords(texts, figure)}`,
    )
    const chance = test.meaning.filter(isFigureSentence).map(({ text }) => text)
    const words = [series(texts, computed), ...chance].filter(Boolean).join('. ')
    return words === '' ? [] : [[test.mark, pair(texts, stepWord(texts, test.step), test.place), words]]
  })
  return {
    title: t('report.test-figures.title'),
    level: 2,
    blocks:
      rows.length === 0
        ? []
        : [
            table({
              caption: t('report.test-figures.title'),
              dense: true,
              size: 'fine',
              columns: [
                { title: t('report.tests.number'), grow: 0 },
                { title: t('report.tests.test'), grow: 1 },
                { title: t('report.test-figures.figures'), grow: 3 },
              ],
              rows,
            }),
          ],
  }
}

type Figure = TestRecord['computed'][string]
type Reading = TestRecord['readings'][number]

/** Computed figures that neither a reading nor a sentence of the meaning gives: the same figure is not printed twice in a row. */
function unsaidFigures({ computed, meaning, readings }: TestRecord): (readonly [string, Figure])[] {
  const said = meaning.flatMap(({ args }) => Object.entries(args))
  const isSaid = (name: string, figure: Figure) =>
    said.some(([as, arg]) =>
      typeof arg === 'object'
        ? 'unit' in arg && sameFigure(arg, figure)
        : as === name && arg === figure.value,
    )
  const isLogged = (figure: Figure) => readings.some((reading) => isSameReading(reading, figure))
  return Object.entries(computed).filter(([name, figure]) => !isSaid(name, figure) && !isLogged(figure))
}

/** The reading itself, in its own unit or in kPa: its uncertainty is the gauge's, which the limits give. */
function isSameReading({ value, unit }: Reading, figure: Figure): boolean {
  if (value === null || unit === null) return false
  if (unit === figure.unit) return value === figure.value
  return (
    figure.unit === 'kPa' && isPressureUnit(unit) && Math.abs(toKpa(value, unit) / figure.value - 1) < SAME
  )
}

/** Records are rounded to six digits. */
const SAME = 1e-5

const sameFigure = (a: Figure, b: Figure): boolean =>
  a.value === b.value && a.low === b.low && a.high === b.high && a.unit === b.unit

function figureWords(texts: Texts, { value, low, high, unit }: Figure): string {
  const exact = low === value && high === value
  return exact
    ? quantity(texts, value, { unit, ...(Number.isInteger(value) ? { decimals: 0 } : {}) })
    : formatArg({ value, low, high, unit } as never, { format: undefined, language: texts.language })
}
