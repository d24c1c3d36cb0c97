import { readText } from '../job/read-text.ts'
import { readYaml, type YamlFile } from '../job/yaml-document.ts'
import { near } from '../problems/nearest.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { LANGUAGES, loadTexts, staysEnglish, type Language } from '../texts/load-texts.ts'
import type { Texts } from '../texts/messages.ts'
import { isKept, withOwnTexts } from '../texts/own-texts.ts'
import { misfit } from '../texts/placeholders.ts'

const MOST_BYTES = 1024 * 1024

/**
 * The texts of a language with a shop's own sentences laid over them. The file holds, under each language, keys of
 * templates/texts/ with the shop's sentences; the sentences of every language are looked at, those of this one are used.
 *
 * @throws JobError with every problem of the file, each at its line
 */
export async function readOwnTexts(path: string, language: Language): Promise<Texts> {
  const yaml = readYaml(path, await readText({ file: path, path, limit: MOST_BYTES }))
  const problems = [...yaml.problems, ...(yaml.data === undefined ? [] : problemsOf(yaml))]
  if (problems.length > 0) throw new JobError(problems)
  const own = (yaml.data ?? {}) as Partial<Record<Language, Record<string, string>>>
  return withOwnTexts(loadTexts(language), own[language] ?? {})
}

function problemsOf(yaml: YamlFile): Problem[] {
  if (!isMapping(yaml.data)) return [notMapping(yaml, [], 'texts')]
  return Object.entries(yaml.data).flatMap(([name, sentences]) => {
    const language = LANGUAGES.find((each) => each === name)
    if (language === undefined)
      return [unknownKey(yaml, [name], near(name, LANGUAGES) ?? LANGUAGES.join(', '))]
    if (!isMapping(sentences)) return [notMapping(yaml, [name], name)]
    const { templates } = loadTexts(language)
    return Object.entries(sentences).flatMap(([key, own]) =>
      sentenceProblems(yaml, { path: [language, key], key, own, templates }),
    )
  })
}

const isMapping = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const unknownKey = (yaml: YamlFile, path: readonly string[], near: string): Problem =>
  problem('unknown-key', yaml.keyPlace(path), { key: path.at(-1)!, nearest: near })

const notMapping = (yaml: YamlFile, path: readonly string[], key: string): Problem =>
  problem('wrong-value', yaml.valuePlace(path), {
    key,
    found: yaml.written(path),
    expected: 'phrase.mapping',
  })

interface OwnSentenceAt {
  path: readonly string[]
  key: string
  own: unknown
  templates: Texts['templates']
}

/** What is wrong with one sentence of the file. */
function sentenceProblems(yaml: YamlFile, { path, key, own, templates }: OwnSentenceAt): Problem[] {
  if (!Object.hasOwn(templates, key)) return [unknownKey(yaml, path, near(key, Object.keys(templates)) ?? '')]
  if (isKept(key) || staysEnglish(key)) return [problem('text-kept', yaml.keyPlace(path), { key })]
  const place = yaml.valuePlace(path)
  if (typeof own !== 'string' || own.trim() === '')
    return [problem('wrong-value', place, { key, found: yaml.written(path), expected: 'phrase.text' })]
  const shipped = templates[key]!
  const wrong = misfit(own, shipped)
  if (wrong === undefined) return []
  const [lacks, unknown] = [wrong.lacks.join(', '), wrong.unknown.join(', ')]
  return [problem('text-misfit', place, { key, lacks, unknown, shipped })]
}
