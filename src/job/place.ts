/** Where something stands; line and column from 1, absent where there is none. */
export interface Place {
  file: string
  line?: number
  column?: number
}
