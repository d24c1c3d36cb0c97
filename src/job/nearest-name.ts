import { readdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { nearest, slips } from '../problems/nearest.ts'

/** A name this many slips away may have been meant: `.csv` in place of `.csv.gz`, `.yaml.txt`. */
const MOST_SLIPS = 4
/** Names compared at most. */
const MOST_NAMES = 2000

/**
 * The path of a file as the folder has it, where the two differ only by how an accented letter is composed: one system
 * writes it as one sign, another as two, and a copied job must be found under both.
 */
export async function spelt(folder: string, file: string): Promise<string> {
  const path = join(folder, file)
  if (/^[\x20-\x7e]*$/.test(file)) return path
  const name = (await namesBeside(path)).filter(
    (each) => each.normalize() === path.slice(dirname(path).length + 1).normalize(),
  )
  return name.length === 1 ? join(dirname(path), name[0]!) : path
}

/**
 * The name a missing file was most likely meant by, as a path of the job; '' where none is near. Folders are followed
 * whatever their capitals, since on the computer the job was written on they may not have counted.
 */
export async function nearestName(folder: string, file: string): Promise<string> {
  const parts = file.split('/')
  const wanted = parts.pop()!
  let within = ''
  for (const part of parts) {
    const names = await namesBeside(join(folder, within, part))
    const found = names.includes(part)
      ? part
      : names.find((name) => name.toLowerCase() === part.toLowerCase())
    if (found === undefined) return ''
    within += `${found}/`
  }
  const best = nearName(
    wanted,
    (await namesBeside(join(folder, within, wanted))).filter((name) => !name.startsWith('.')),
  )
  return best === '' ? '' : within + best
}

/** The name with the fewest slips, if they are few; a short name whose ending was left out has more slips than letters. */
function nearName(wanted: string, names: readonly string[]): string {
  const best = nearest(wanted, names)
  if (best !== '' && slips(best, wanted) <= Math.min(MOST_SLIPS, wanted.length - 1)) return best
  const longer = names.filter((name) => name.toLowerCase().startsWith(`${wanted.toLowerCase()}.`))
  return longer.length === 1 ? longer[0]! : ''
}

async function namesBeside(path: string): Promise<string[]> {
  try {
    return (await readdir(dirname(path))).sort().slice(0, MOST_NAMES)
  } catch {
    return [] // no such folder, or none that may be listed: nothing to suggest
  }
}
