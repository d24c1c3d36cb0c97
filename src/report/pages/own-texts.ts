import { sayer } from '../../texts/say.ts'
import { paragraph } from '../blocks/paragraph.ts'
import { table } from '../blocks/table.ts'
import type { PageInput, Section } from './page-input.ts'

/** Sentences the shop says its own way, each beside the one shipped: a reader can tell whose words they are. */
export function ownTexts({ result, texts }: PageInput): Section {
  const t = sayer(texts)
  const own = result.own_texts ?? []
  return {
    title: t('report.own-texts.title'),
    level: 2,
    blocks:
      own.length === 0
        ? []
        : [
            paragraph(t('report.own-texts.intro'), { keepWithNext: true }),
            table({
              caption: t('report.own-texts.title'),
              dense: true,
              columns: [
                { title: t('report.own-texts.own'), grow: 1 },
                { title: t('report.own-texts.shipped'), grow: 1 },
              ],
              rows: own.map(({ key, sentence, shipped }) => [{ text: sentence, note: key }, shipped]),
            }),
          ],
  }
}
