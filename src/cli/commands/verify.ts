import { existsSync } from 'node:fs'
import { relative } from 'node:path'
import type { CommandModule } from 'yargs'
import type { Verified } from '../../evidence/verify-output.ts'
import { broken, SEAL_SAYS, type SealFinding } from '../../seal/finding.ts'
import { visible } from '../../problems/control-characters.ts'
import { MOST_LEDGER_BYTES } from '../../seal/ledger.ts'
import type { Args, Texts } from '../../texts/messages.ts'
import { say, sayAgain } from '../../texts/say.ts'
import { EXIT } from '../exit-codes.ts'
import { printJson } from '../print-json.ts'
import { readPublicKey } from '../read-key.ts'
import { UsageError } from '../usage-error.ts'
import { lineTexts } from '../terminal.ts'
import { MANIFEST_BOUNDS, readJsonText } from '../../files/bounded-json.ts'
import { readRegularSync } from '../../files/regular-file.ts'

interface VerifyArgs {
  paths: string[]
  key: string | undefined
  ledger: string | undefined
  head: string | undefined
  original: string | undefined
  sums: boolean
  json: boolean
}

/** `burnline verify <output-folder|report.pdf>...`: whether outputs are what was written, and whose signature they bear. */
export const verifyCommand: CommandModule<object, VerifyArgs> = {
  command: 'verify [paths..]',
  describe: 'Check outputs against their manifests, seals and signatures.',
  builder: (y) =>
    y
      .positional('paths', {
        type: 'string',
        array: true,
        default: [],
        describe: 'Output folders, folders of them, or reports',
      })
      .option('key', {
        type: 'string',
        describe: 'The shop’s public key, from the shop itself: everything must be signed with it',
      })
      .option('ledger', { type: 'string', describe: 'Check this ledger, and the outputs named against it' })
      .option('head', {
        type: 'string',
        describe: 'Digest of a line of the ledger noted earlier: it must still be there',
      })
      .option('original', {
        type: 'string',
        describe: 'manifest.json of the original a redacted copy was made from',
      })
      .option('sums', {
        type: 'boolean',
        default: false,
        describe: 'Only print the list that `sha256sum -c` takes',
      })
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 verify outputs', 'every output below the folder')
      .example('$0 verify report.pdf --key shop.key.pub', 'a lone report, signed by this shop') as never,
  handler: async (args) => {
    if (args.paths.length === 0 && args.ledger === undefined)
      throw new UsageError('Name outputs to check, or a ledger with --ledger.')
    const missing = [...args.paths, ...(args.ledger === undefined ? [] : [args.ledger])].filter(
      (path) => !existsSync(path),
    )
    if (missing.length > 0) {
      process.stderr.write(
        `burnline: ${say(lineTexts(), 'seal.no-such', { path: visible(missing.join(', ')) })}\n`,
      )
      process.exitCode = EXIT.noInput
    } else if (args.sums) await printSums(args.paths)
    else await verify(args)
  },
}

async function verify({ paths, key, ledger, head, original, json }: VerifyArgs): Promise<void> {
  const { outputFolders, verifyOutput } = await import('../../evidence/verify-output.ts')
  const publicKey = key === undefined ? {} : { publicKey: readPublicKey(key) }
  const settings = { ...publicKey, ...(original === undefined ? {} : { original: readOriginal(original) }) }
  const checked: Verified[] = []
  for (const path of paths.flatMap(outputFolders)) checked.push(await verifyOutput(path, settings))
  if (ledger !== undefined)
    checked.push(
      await verifyLedger(ledger, checked, { ...publicKey, ...(head === undefined ? {} : { head }) }),
    )
  const texts = lineTexts()
  if (json)
    printJson(
      checked.map((one) => ({
        path: one.path,
        holds: holds(one),
        findings: one.findings.map((f) => ({ ...f, sentence: sentence(texts, f) })),
      })),
    )
  else for (const one of checked) tell(one, texts)
  process.exitCode = checked.every(holds) ? EXIT.done : EXIT.invalidJob
}

function readOriginal(path: string): string {
  try {
    return readJsonText(path, MANIFEST_BOUNDS)
  } catch (cause) {
    throw new UsageError(`--original: cannot read “${path}”`, { cause })
  }
}

function readLedger(path: string): string {
  try {
    return readRegularSync(path, MOST_LEDGER_BYTES).toString('utf8')
  } catch (cause) {
    throw new UsageError(`--ledger: cannot read “${path}”: ${(cause as Error).message}`, { cause })
  }
}

/** A ledger, and where outputs were named, these against it; their own copies, redacted ones, are not entered. */
async function verifyLedger(
  path: string,
  checked: readonly Verified[],
  how: { publicKey?: string; head?: string },
): Promise<Verified> {
  const { walkLedger, compareWithLedger } = await import('../../seal/ledger.ts')
  const walked = walkLedger(readLedger(path), path, how)
  const standing = new Map(
    checked.flatMap((one) =>
      one.workOrder !== undefined && one.manifest !== undefined
        ? [[one.workOrder, one.manifest] as const]
        : [],
    ),
  )
  const compared = checked.length === 0 ? [] : compareWithLedger(walked, standing)
  const state: SealFinding = {
    code: 'ledger-head',
    severity: 'note',
    file: path,
    args: { head: walked.digest, lines: walked.n },
  }
  return {
    path,
    workOrder: undefined,
    manifest: undefined,
    findings: [...walked.findings, ...compared, state],
  }
}

const holds = ({ findings }: Verified): boolean => !findings.some((f) => f.severity === 'broken')

const sentence = (texts: Texts, { code, severity, args }: SealFinding): string => {
  const shown = Object.fromEntries(
    Object.entries(args).map(([name, value]) => [name, typeof value === 'string' ? visible(value) : value]),
  ) as Args
  return sayAgain(texts, {
    key: code === 'ledger-head' && severity === 'note' ? 'seal.ledger-at' : SEAL_SAYS[code],
    args: shown,
  })
}

function tell(one: Verified, texts: Texts): void {
  const path = relative(process.cwd(), one.path) || '.'
  process.stdout.write(`${visible(path)}  ${say(texts, holds(one) ? 'seal.holds' : 'seal.broken')}\n`)
  for (const finding of one.findings) {
    const stream = finding.severity === 'broken' ? process.stderr : process.stdout
    stream.write(
      `  ${finding.severity === 'broken' ? 'error: ' : ''}${visible(finding.file)}: ${sentence(texts, finding)}\n`,
    )
  }
}

async function printSums(paths: readonly string[]): Promise<void> {
  const { sumsOf } = await import('../../evidence/verify-output.ts')
  for (const path of paths) {
    const sums = sumsOf(path)
    if (sums === undefined)
      tell(
        {
          path,
          workOrder: undefined,
          manifest: undefined,
          findings: [broken('no-manifest', 'manifest.json')],
        },
        lineTexts(),
      )
    else process.stdout.write(sums)
    if (sums === undefined) process.exitCode = EXIT.invalidJob
  }
}
