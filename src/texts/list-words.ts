import type { Texts } from './messages.ts'
import { say } from './say.ts'

/** "a", "a and b", "a, b and c". */
export function listWords(texts: Texts, items: readonly string[]): string {
  if (items.length < 2) return items.join('')
  return say(texts, 'list.and', {
    first: items.slice(0, -1).join(say(texts, 'list.comma')),
    last: items.at(-1)!,
  })
}
