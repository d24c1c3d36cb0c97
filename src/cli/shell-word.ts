/** A path as it can be typed into a shell. */
export const shellWord = (word: string): string =>
  /^[\w@%+=:,./-]+$/.test(word) ? word : `"${word.replace(/(["$`\\])/g, '\\$1')}"`
