/** Largest report that is looked into, and so that is made, bytes: the longest with its captures embedded has some 30 MB. */
export const MOST_REPORT_BYTES = 96 * 2 ** 20
