import type { LineLook } from './drawing.ts'
import { ACCENT, FAINT, INK, QUIET } from './theme.ts'

/** One event among many: hair-thin, so that many laid over each other show where they crowd; drawn true to its own width. */
export const EVENT: LineLook = { stroke: FAINT, width: 0.35, dash: [], opacity: 0.55, tolerancePt: 0.35 }
/** The line that matters. */
export const MEDIAN: LineLook = { stroke: ACCENT, width: 1.5, dash: [], opacity: 1, tolerancePt: 0.1 }
/** Other cylinders behind it. */
export const OTHERS: LineLook = { stroke: FAINT, width: 0.5, dash: [], opacity: 1, tolerancePt: 0.25 }
/** Before the repair, where it shares a panel with after. */
export const BEFORE: LineLook = { stroke: QUIET, width: 1.1, dash: [3, 2], opacity: 1, tolerancePt: 0.1 }
/** After the repair. */
export const AFTER: LineLook = { stroke: ACCENT, width: 1.5, dash: [], opacity: 1, tolerancePt: 0.1 }
/** Engine speed. */
export const SPEED: LineLook = { stroke: INK, width: 0.7, dash: [], opacity: 1, tolerancePt: 0.1 }
