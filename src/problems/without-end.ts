/**
 * A text without the signs at its end that are blank by `isBlank`, in one walk from the end: a pattern such as `\s+$` is
 * tried anew at every blank of a file of blanks, and takes minutes for a megabyte.
 */
export function withoutEnd(text: string, isBlank: RegExp): string {
  let end = text.length
  while (end > 0 && isBlank.test(text[end - 1]!)) end--
  return text.slice(0, end)
}
