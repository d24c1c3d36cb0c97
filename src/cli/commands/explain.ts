import type { CommandModule } from 'yargs'
import { nearest } from '../../problems/nearest.ts'
import { explain, explainedCodes } from '../../texts/explain.ts'
import { loadTexts } from '../../texts/load-texts.ts'
import { visible } from '../../problems/control-characters.ts'
import { EXIT } from '../exit-codes.ts'
import { printJson } from '../print-json.ts'

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
      .option('json', { type: 'boolean', default: false, describe: 'For machines' }) as never,
  handler: ({ code, json }) => {
    const texts = loadTexts('en')
    const codes = explainedCodes()
    if (code === undefined) {
      if (json) printJson(codes.map((each) => explain(texts, each)))
      else process.stdout.write(`${codes.join('\n')}\n`)
      return
    }
    const found = explain(texts, code)
    if (!found) {
      process.stderr.write(`burnline: no code “${visible(code)}”; the nearest is “${nearest(code, codes)}”\n`)
      process.exitCode = EXIT.usage
    } else if (json) printJson(found)
    else process.stdout.write(`${found.code}\n  ${found.means}\n  ${found.example}\n  ${found.toDo}\n`)
  },
}
