/** Control characters and line ends, and marks that turn the direction of what follows. */
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/

/** The same without those that JSON writes as codes anyway, and without the line ends between its own lines. */
export const CONTROL_IN_JSON =
  /[\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/g

/** True for a text with characters that cannot be seen and change how a line is shown. */
export const hasControl = (text: string): boolean => CONTROL.test(text)

/** The text with each such character written as its code point, so that a name cannot forge the line it stands in. */
export const visible = (text: string): string =>
  text.replace(new RegExp(CONTROL, 'g'), (c) => `\\u{${c.codePointAt(0)!.toString(16)}}`)
