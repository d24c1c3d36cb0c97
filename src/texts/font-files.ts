import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

/** Cuts of the one family in use, whole TrueType files (OFL-1.1). */
const FACE_FILES = {
  regular: '400Regular/SourceSans3_400Regular.ttf',
  semibold: '600SemiBold/SourceSans3_600SemiBold.ttf',
  italic: '400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
} as const
export type FaceFile = keyof typeof FACE_FILES

/** Bytes of a face as it ships with the package that carries it, found from this file and never from the machine's fonts. */
export const readFaceFile = (face: FaceFile): Uint8Array =>
  readFileSync(createRequire(import.meta.url).resolve(`@expo-google-fonts/source-sans-3/${FACE_FILES[face]}`))
