import { printLine, tellLine } from '../print-line.ts'
import { writeFileSync } from 'node:fs'
import type { CommandModule } from 'yargs'
import { say } from '../../texts/say.ts'
import { EXIT } from '../exit-codes.ts'
import { printJson } from '../print-json.ts'
import { lineTexts } from '../terminal.ts'
import { VERSION } from '../version.ts'

/** `burnline prove`: measures captures with known truth that ship with the package and holds the errors to stated limits. */
/** What is proved, for the head of the table and in full. */
const FIGURES = {
  missedPct: { short: 'prove.short.missedPct', name: 'prove.figure.missedPct' },
  falseEvents: { short: 'prove.short.falseEvents', name: 'prove.figure.falseEvents' },
  wrongCylinders: { short: 'prove.short.wrongCylinders', name: 'prove.figure.wrongCylinders' },
  wrongKinds: { short: 'prove.short.wrongKinds', name: 'prove.figure.wrongKinds' },
  burnErrorPct: { short: 'prove.short.burnErrorPct', name: 'prove.figure.burnErrorPct' },
  midErrorPct: { short: 'prove.short.midErrorPct', name: 'prove.figure.midErrorPct' },
  lateRiseErrorKv: { short: 'prove.short.lateRiseErrorKv', name: 'prove.figure.lateRiseErrorKv' },
  intervalsMissed: { short: 'prove.short.intervalsMissed', name: 'prove.figure.intervalsMissed' },
  wrongVerdicts: { short: 'prove.short.wrongVerdicts', name: 'prove.figure.wrongVerdicts' },
} as const

export const proveCommand: CommandModule<object, { out: string; json: boolean }> = {
  command: 'prove',
  describe:
    'Measure captures with known truth, print the errors against their limits, and write a proof file.',
  builder: (y) =>
    y
      .option('out', {
        type: 'string',
        default: 'burnline-proof.json',
        describe: 'Where the proof file goes',
      })
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 prove --out proof.json', 'then: $0 report KB-26-0417 --proof proof.json') as never,
  handler: async ({ out, json }) => {
    const texts = lineTexts()
    const [{ runProof, proofLimits }, { makeProof, PROVED }, { programDigest }] = await Promise.all([
      import('../../prove/run-proof.ts'),
      import('../../prove/proof.ts'),
      import('../../evidence/made-with.ts'),
    ])
    const line = (text: string): void => {
      if (!json) printLine(text)
    }
    line(
      [
        say(texts, 'prove.capture').padEnd(58),
        say(texts, 'prove.events').padStart(7),
        ...PROVED.map((f) => say(texts, FIGURES[f].short).padStart(11)),
      ].join(''),
    )
    const scored = await runProof(({ name, score }) =>
      line(
        [
          name.padEnd(58),
          String(score.due).padStart(7),
          ...PROVED.map((f) => score[f].toPrecision(3).padStart(11)),
        ].join(''),
      ),
    )
    const proof = makeProof(scored, proofLimits(), {
      version: VERSION,
      programSha256: programDigest(),
      date: new Date().toISOString().slice(0, 10),
    })
    line('')
    for (const { figure, error, limit, unit, capture } of proof.worst) {
      line(
        say(texts, error <= limit ? 'prove.holds' : 'prove.fails', {
          figure: say(texts, FIGURES[figure as keyof typeof FIGURES].name),
          error: String(error),
          limit: String(limit),
          unit: unit === '1' ? '' : ` ${unit}`,
          capture,
        }),
      )
    }
    line(say(texts, proof.holds ? 'prove.all-hold' : 'prove.not-all-hold'))
    if (json) printJson(proof)
    try {
      writeFileSync(out, `${JSON.stringify(proof, null, 2)}\n`)
      line(say(texts, 'prove.written', { path: out }))
    } catch (cause) {
      const why = cause instanceof Error ? cause.message : String(cause)
      tellLine(`burnline: ${say(texts, 'problem.cannot-write', { path: out, why })}`)
      process.exitCode = EXIT.cannotWrite
      return
    }
    process.exitCode = proof.holds ? EXIT.done : EXIT.proofFails
  },
}
