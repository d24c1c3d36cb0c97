/**
 * Flesch-Kincaid grade of an English text: 0.39 words a sentence + 11.8 syllables a word - 15.59.
 * @source Kincaid, Fishburne, Rogers, Chissom 1975 (formula from memory); syllables are counted by groups of vowels, a common approximation
 */
export function readingGrade(text: string): number {
  const sentences = text.split(/[.!?:;]+(?:\s|$)/).filter((sentence) => /\p{L}/u.test(sentence)).length
  const words = text.match(/[\p{L}\u2019']+/gu) ?? []
  const syllables = words.reduce((sum, word) => sum + syllablesOf(word.toLowerCase()), 0)
  return 0.39 * (words.length / sentences) + 11.8 * (syllables / words.length) - 15.59
}

/** Groups of vowels, less a silent e at the end; at least one. */
function syllablesOf(word: string): number {
  const groups =
    word.replace(/(?:[^laeiouy]es|[^laeiouy]ed|[^laeiouyt]e)$/, '').match(/[aeiouy]+/g)?.length ?? 0
  return Math.max(1, groups)
}
