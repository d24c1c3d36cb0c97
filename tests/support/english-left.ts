import { loadTexts, staysEnglish, type Language } from '../../src/texts/load-texts.ts'

/** Words between the placeholders of a sentence, where there are enough of them to be no accident. */
const fragments = (template: string): string[] =>
  template
    .split(/\{[^}]*\}/)
    .map(plain)
    .filter((part) => (part.match(/\p{L}{3,}/gu)?.length ?? 0) >= 3)
const plain = (text: string) => text.replaceAll(/\s+/g, ' ').trim()

/**
 * English sentences of the templates, whole or between their figures, that stand in a text of another language.
 *
 * @param text  all words of a report
 */
export function englishLeft(text: string, language: Exclude<Language, 'en'>): string[] {
  const own = loadTexts(language).templates
  const whole = plain(text)
  return Object.entries(loadTexts('en').templates)
    .filter(([key, english]) => !staysEnglish(key) && own[key] !== english)
    .flatMap(([key, english]) =>
      fragments(english)
        .filter((part) => whole.includes(part))
        .map((part) => `${key}: ${part}`),
    )
}
