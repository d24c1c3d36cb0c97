import { near } from '../problems/nearest.ts'

/** What is known of a call whose words were not understood. */
export interface CallWords {
  /** Words of the call, options and all. */
  argv: readonly string[]
  commands: readonly string[]
  /** Options of the command that was named, without hyphens. */
  options: readonly string[]
  /** True for the path of a file or folder that is there. */
  exists: (path: string) => boolean
}

/** What the parser of the command line says, as somebody can act on it: what was typed, what was likely meant, where help is. */
export function usageWords(said: string, { argv, commands, options, exists }: CallWords): string {
  const first = argv.find((word) => !word.startsWith('-'))
  const command = first !== undefined && commands.includes(first) ? first : undefined
  const help = `burnline ${command === undefined ? '' : `${command} `}--help`
  const unknown = /^Unknown arguments?: (.+)$/s.exec(said)?.[1]
  if (command === undefined && first !== undefined && (unknown !== undefined || said.startsWith('Did you')))
    return unknownCommand(first, { commands, exists })
  if (unknown !== undefined) {
    const words = unknown.split(', ').map((word) => {
      const begun = options.filter((option) => option.startsWith(word))
      const meant = begun.length === 1 ? begun[0]! : near(word, options)
      const isOption = argv.some((each) => each.replace(/^-+/, '').split('=')[0] === word && each[0] === '-')
      if (!isOption) return `“${word}” is one word too many.`
      return `there is no option ${word.length === 1 ? '-' : '--'}${word}${meant === '' ? '.' : `; was --${meant} meant?`}`
    })
    return `${words.join(' ')} ${help} shows what there is.`
  }
  const wrong = /Argument: ([\w-]+), Given: (.*?), Choices: (.+)$/s.exec(said)
  if (wrong) {
    const [, option = '', given = '', choices = ''] = wrong
    const known = choices.split(', ').map((word) => word.replace(/^"|"$/g, ''))
    const meant = near(given.replace(/^"|"$/g, ''), known)
    return `--${option} takes ${known.join(', ')}; found ${given}${meant === '' ? '' : `; was ${meant} meant?`}`
  }
  if (/^Not enough non-option arguments/.test(said))
    return `${command ?? ''} needs more words. ${help} shows which, with examples.`
  return said.replace(/\s*\n\s*/g, ' ')
}

function unknownCommand(word: string, { commands, exists }: Pick<CallWords, 'commands' | 'exists'>): string {
  if (exists(word))
    return `“${word}” is there, but no command goes before it: burnline report ${word}, or burnline peek for a capture.`
  const meant = near(word, commands)
  return `there is no command “${word}”${meant === '' ? '.' : `; was ${meant} meant?`} burnline --help lists the commands.`
}
