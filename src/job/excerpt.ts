/** Enough of a found text to recognise it by. */
const SHOWN_CHARACTERS = 60

/** A found text on one line and of bounded length, an ellipsis standing for what is left out. */
export function excerpt(found: string): string {
  const start = found.trim().slice(0, 4 * SHOWN_CHARACTERS)
  const line = start.replace(/\s+/g, ' ')
  const characters = [...line]
  if (characters.length <= SHOWN_CHARACTERS && start.length === found.trim().length) return line
  return `${characters.slice(0, SHOWN_CHARACTERS - 1).join('')}…`
}
