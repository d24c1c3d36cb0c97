/** Sureness from which a reading is called sure, and likely. */
const SURE = 0.95
const LIKELY = 0.75

/** A sureness (0 to 1) in a word; texts `peek.sure.<word>`. */
export const surenessWord = (sureness: number): 'sure' | 'likely' | 'unsure' =>
  sureness >= SURE ? 'sure' : sureness >= LIKELY ? 'likely' : 'unsure'
