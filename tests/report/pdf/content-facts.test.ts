import { expect, test } from 'vitest'
import { contentFacts } from '../../support/pdf-raw.ts'

const facts = (content: string) => contentFacts(Buffer.from(content, 'latin1'))

/** The checks of the whole report rest on this reader: it must see what is wrong. */
test('sees drawing outside every mark, marks within marks, and what is left open', () => {
  expect(facts('q /P <</MCID 0>> BDC BT <0001> Tj ET EMC 0 0 5 5 re f Q')).toMatchObject({
    unmarked: ['f'],
    deepestMark: 1,
    openSaves: 0,
  })
  expect(facts('/P <</MCID 0>> BDC /Artifact BMC 0 0 m 1 1 l S EMC EMC')).toMatchObject({
    unmarked: [],
    deepestMark: 2,
  })
  expect(facts('q q /P BMC')).toMatchObject({ openMarks: 1, openSaves: 2, deepestSave: 2 })
  expect(facts('/P BMC [<00010000> -20 <0002>] TJ EMC').codes).toEqual(new Set(['0001', '0000', '0002']))
  expect(facts('/Span <</ActualText (f S Do)>> BDC EMC').unmarked).toEqual([])
})
