/** pdfkit writes a String object as a text string and a plain string as a name. */
export const pdfText = (text: string) => Object(text) as string
