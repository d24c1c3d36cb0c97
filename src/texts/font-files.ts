import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { basename } from 'node:path'

/** Cuts of the one family in use, whole TrueType files (OFL-1.1). */
const FACE_FILES = {
  regular: '400Regular/SourceSans3_400Regular.ttf',
  semibold: '600SemiBold/SourceSans3_600SemiBold.ttf',
  italic: '400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
} as const
export type FaceFile = keyof typeof FACE_FILES

/** Where the package that carries a face has it. */
const inPackage = (file: string): string =>
  createRequire(import.meta.url).resolve(`@expo-google-fonts/source-sans-3/${file}`)

/** Every face in use, as the package has it: the build puts them beside the joined program. */
export const facePaths = (): string[] => Object.values(FACE_FILES).map(inPackage)

/** Bytes of a face, found from this file and never from the machine's fonts: beside the joined program, else in its package. */
export function readFaceFile(face: FaceFile): Uint8Array {
  const file = FACE_FILES[face]
  const beside = new URL(`../app/data/${basename(file)}`, import.meta.url)
  return readFileSync(existsSync(beside) ? beside : inPackage(file))
}
