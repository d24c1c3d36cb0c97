/** Languages by their names, in themselves and in English. */
const NAMES: Readonly<Record<string, string>> = {
  english: 'en',
  deutsch: 'de',
  german: 'de',
  français: 'fr',
  francais: 'fr',
  french: 'fr',
  español: 'es',
  espanol: 'es',
  spanish: 'es',
}

const ofWords =
  (meant: (word: string) => string) =>
  (word: unknown): unknown =>
    typeof word === 'string' ? meant(word.trim()) : word

/** `a4`, `Letter`. */
export const paperMeant = ofWords((word) => word.toUpperCase())
/** `DE`, `deutsch`, `de_DE.UTF-8`. */
export const languageMeant = ofWords((word) => {
  const small = word.toLowerCase()
  return NAMES[small] ?? small.replace(/[-_.].*$/, '')
})
/** `Before`. */
export const smallMeant = ofWords((word) => word.toLowerCase())
