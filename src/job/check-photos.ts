import { JobError, problem, type Problem } from '../problems/problem.ts'
import { lookAtPicture } from '../pictures/look-at-picture.ts'
import type { PictureHead, PictureLook } from '../pictures/picture-look.ts'
import type { JobParts } from './parts.ts'
import type { Place } from './place.ts'
import { readBounded } from './read-text.ts'
import type { YamlFile } from './yaml-document.ts'

/** Names that go with each format. */
const ENDINGS = { jpeg: ['jpg', 'jpeg', 'jpe', 'jfif'], png: ['png'] } as const

/**
 * Looks at every photo before anything is drawn, one in memory at a time: its head, and whether its pixels are whole where
 * the format can tell. A photo told by its bytes to be of the other format than its name says is printed anyway, with a
 * warning.
 *
 * @param files  where each file named by the job really is
 * @param most   bytes of a photo at most
 */
export async function checkPhotos(
  { parts, yaml, most }: { parts: JobParts; yaml: YamlFile; most: number },
  files: ReadonlyMap<string, string>,
): Promise<Problem[]> {
  const problems: Problem[] = []
  const photos = parts.files.filter(({ kind, file }) => kind === 'photos' && files.has(file))
  for (const { file, path } of photos) {
    problems.push(...(await checkPhoto({ file, path: files.get(file)!, most }, yaml.valuePlace(path))))
  }
  return problems
}

async function checkPhoto(
  { file, path, most }: { file: string; path: string; most: number },
  place: Place,
): Promise<readonly Problem[]> {
  try {
    const data = await readBounded({ file, path, limit: most })
    const look = await lookAtPicture(data)
    return look.ok ? mislabelled(file, look.head, place) : [faultProblem(file, look, { place, data })]
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return cause.problems
  }
}

function faultProblem(
  path: string,
  look: PictureLook & { ok: false },
  { place, data }: { place: Place; data: Uint8Array },
): Problem {
  switch (look.why) {
    case 'unknown':
      return problem('not-an-image', place, { path, found: firstBytes(data) })
    case 'ink-colours':
      return problem('picture-colours', place, { path })
    case 'too-large':
      return problem('picture-too-large', place, { path, limit: look.most / 1e6 })
    case 'broken':
    case 'cut-off':
    case 'damaged':
    case 'unsupported':
      return problem('picture-broken', place, { path, why: look.why })
  }
}

/** The first bytes as they are written in lists of formats: "47 49 46 38". */
const firstBytes = (data: Uint8Array): string =>
  [...data.subarray(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join(' ')

function mislabelled(path: string, { format }: PictureHead, place: Place): readonly Problem[] {
  const ending = path.split('.').at(-1)!.toLowerCase()
  const fits = (ENDINGS[format] as readonly string[]).includes(ending)
  return fits
    ? []
    : [problem('picture-mislabelled', { ...place, severity: 'warn' }, { path, found: format.toUpperCase() })]
}
