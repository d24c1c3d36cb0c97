/** What the head of a JPEG or PNG says of it. Width and height as stored, before the orientation turns them. */
export interface PictureHead {
  format: 'jpeg' | 'png'
  widthPx: number
  heightPx: number
  /** EXIF orientation, 1 to 8: how the stored picture is turned to stand upright; 1 is as stored. */
  orientation: number
  /** Components of a pixel's colour as stored, a palette counted as 1, without opacity. */
  colours: 1 | 3
}

/** Why a file is no picture that can be printed. */
type PictureFault =
  | 'unknown' // neither JPEG nor PNG by its first bytes
  | 'broken' // the head cannot be read, or breaks the format's own rules
  | 'cut-off' // the end is missing
  | 'damaged' // the head is sound, the pixels behind it are not
  | 'ink-colours' // four ink colours, which an archival PDF refuses without a press profile
  | 'unsupported' // a kind of JPEG that PDF readers cannot show (lossless, arithmetic, 12 bit)
  | 'too-large' // more pixels than are worth printing: a mistake, or a file made to exhaust memory

/** Most pixels of a picture: twice what good cameras make. Decoded by a reader, such a one takes some 300 MB. */
export const MOST_PIXELS = 100_000_000
/** Most pixels of one that is unpacked, laid on white and packed again for the report: some seconds, 100 MB. */
export const MOST_UNPACKED_PIXELS = 16_000_000

/** @param most  pixels allowed, where there are too many */
export type PictureLook =
  | { ok: true; head: PictureHead }
  | { ok: false; why: Exclude<PictureFault, 'too-large'> }
  | { ok: false; why: 'too-large'; most: number }
