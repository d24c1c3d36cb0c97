import { sha256 } from '../maths/sha256.ts'
import { composeSections } from '../report/compose-sections.ts'
import { openTypeface } from '../report/text/typeface.ts'
import { say } from '../texts/say.ts'
import { fleetSections, type FleetInput } from './sections.ts'

/** Date of a fleet report where no job bears one: the day PDF counts from nothing, so that no clock is read. */
const NO_DATE = '1970-01-01'

/** The printable fleet report, its seal still blank. Equal inputs give equal bytes. */
export async function renderFleet(input: FleetInput): Promise<Uint8Array> {
  const { tally, texts, version, digests } = input
  const tool = `burnline ${version}`
  const last = [...tally.months.keys()].sort().at(-1)
  const title = say(texts, 'fleet.title')
  return composeSections(fleetSections(input), {
    typeface: await openTypeface(),
    paper: input.page,
    attachments: [],
    heads: {
      left: title,
      right: say(texts, 'fleet.kind'),
      footLeft: say(texts, 'fleet.footer', { jobs: tally.jobs }),
      pageOf: (page, pages) => say(texts, 'report.page-of', { page, pages }),
    },
    facts: {
      title,
      author: tool,
      subject: say(texts, 'fleet.subject'),
      language: texts.language,
      tool,
      producer: `${tool}, PDFKit`,
      when: `${last ? `${last}-01` : NO_DATE}T00:00:00Z`,
      inputsSha256: sha256(JSON.stringify([digests, input.page, texts.language])),
    },
  })
}
