import { relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Where a sentence's key is read to say it, to keep it, or to print caveats that several tests share only once. */
const PRINTS = /^src\/(?:texts\/|records\/parts\/statement\.ts$|report\/pages\/tests\.ts$)/

const { options } = ts.parseJsonConfigFileContent(
  ts.readConfigFile(`${root}tsconfig.json`, (file) => ts.sys.readFile(file)).config,
  ts.sys,
  root,
)

/** Reads of `key` on what is a sentence (it has arguments beside its key), as `file:line`. */
function keysRead(files: readonly string[], host = ts.createCompilerHost(options)): string[] {
  const program = ts.createProgram({ rootNames: [...files], options: { ...options, noEmit: true }, host })
  const checker = program.getTypeChecker()
  const isSentence = (node: ts.Node) => {
    const type = checker.getTypeAtLocation(node)
    const parts = type.isUnion() ? type.types : [type]
    return parts.some((t) => t.getProperty('key') !== undefined && t.getProperty('args') !== undefined)
  }
  return program.getSourceFiles().flatMap((file) => {
    const name = relative(root, file.fileName).split('\\').join('/')
    if (!name.startsWith('src/') || PRINTS.test(name)) return []
    const found: string[] = []
    const look = (node: ts.Node): void => {
      const reads =
        (ts.isPropertyAccessExpression(node) && node.name.text === 'key' && isSentence(node.expression)) ||
        (ts.isElementAccessExpression(node) &&
          ts.isStringLiteral(node.argumentExpression) &&
          node.argumentExpression.text === 'key' &&
          isSentence(node.expression)) ||
        (ts.isBindingElement(node) &&
          (node.propertyName ?? node.name).getText() === 'key' &&
          isSentence(node.parent))
      if (reads) found.push(`${name}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`)
      ts.forEachChild(node, look)
    }
    look(file)
    return found
  })
}

test('no decision rests on the key of a sentence: outside of what says it nothing reads it', () => {
  expect(keysRead([`${root}src/cli/main.ts`, `${root}src/batch/job-worker.ts`])).toEqual([])
}, 120_000)

test('the search finds a key read in either way', () => {
  const host = ts.createCompilerHost(options)
  const made = `${root}src/made-up.ts`
  const text = `import type { Sentence } from './texts/args.ts'
export const a = (said: Sentence) => said.key === 'x'
export const b = ({ key }: Sentence) => key
export const c = (limit: { key: string }) => limit.key`
  const real = host.getSourceFile.bind(host)
  host.getSourceFile = (file, ...rest) =>
    file === made ? ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true) : real(file, ...rest)
  host.fileExists = (
    (exists) => (file: string) =>
      file === made || exists(file)
  )(host.fileExists.bind(host))
  expect(keysRead([made], host)).toEqual(['src/made-up.ts:2', 'src/made-up.ts:3'])
}, 60_000)
