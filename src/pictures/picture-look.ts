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
export type PictureFault =
  | 'unknown' // neither JPEG nor PNG by its first bytes
  | 'broken' // the head cannot be read, or breaks the format's own rules
  | 'cut-off' // the end is missing
  | 'damaged' // the head is sound, the pixels behind it are not
  | 'ink-colours' // four ink colours, which an archival PDF refuses without a press profile
  | 'unsupported' // a kind of JPEG that PDF readers cannot show (lossless, arithmetic, 12 bit)
  | 'too-large' // more pixels than are worth printing: a mistake, or a file made to exhaust memory

export type PictureLook = { ok: true; head: PictureHead } | { ok: false; why: PictureFault }
