import type { CommandModule } from 'yargs'
import { near } from '../../problems/nearest.ts'
import { explain, explainedCodes } from '../../texts/explain.ts'
import { lineTexts } from '../terminal.ts'
import { printJson } from '../print-json.ts'
import { UsageError } from '../usage-error.ts'

interface ExplainArgs {
  code: string | undefined
  json: boolean
}

/** `burnline explain [code]`: what a code of a problem or remark means, an example, what to do; without a code, all of them. */
export const explainCommand: CommandModule<object, ExplainArgs> = {
  command: 'explain [code]',
  describe: 'Say what the code of a problem or remark means and what to do.',
  builder: (y) =>
    y
      .positional('code', {
        type: 'string',
        describe: 'A code, as printed in brackets behind a message; left out, all codes are listed',
      })
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 explain sync-missing', 'a code as printed in brackets') as never,
  handler: ({ code, json }) => {
    const texts = lineTexts()
    const codes = explainedCodes()
    if (code === undefined) {
      if (json) printJson(codes.map((each) => explain(texts, each)))
      else process.stdout.write(`${codes.join('\n')}\n`)
      return
    }
    const found = explain(texts, code)
    if (!found) {
      const nearest = near(code, codes)
      const other = nearest === '' ? 'burnline explain lists them' : `the nearest is “${nearest}”`
      throw new UsageError(`no code “${code}”; ${other}`)
    }
    if (json) printJson(found)
    else process.stdout.write(`${found.code}\n  ${found.means}\n  ${found.example}\n  ${found.toDo}\n`)
  },
}
