/** C0 controls, DEL, C1 controls, line separators, and what turns the direction of writing (Unicode 16, 23.1 and 23.2). */
// eslint-disable-next-line no-control-regex -- these are what is looked for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g
/** The block of Unicode with a picture for each C0 control, and the one for DEL. */
const PICTURES = { first: 0x2400, del: '\u2421' } as const
const NO_PICTURE = '\ufffd'

/**
 * A text in one line in which every control character is seen as a mark: file names, meter names and headers may hold
 * escapes that would move a terminal's cursor, colour its text or forge a line.
 */
export function withControlsMarked(text: string): string {
  return text.replace(CONTROL, (control) => {
    const code = control.charCodeAt(0)
    if (code < 0x20) return String.fromCharCode(PICTURES.first + code)
    return code === 0x7f ? PICTURES.del : NO_PICTURE
  })
}

/** JSON with every control character escaped, for a terminal that shows it raw; its meaning stays. */
export function withControlsEscaped(json: string): string {
  return json.replace(CONTROL, (control) =>
    control === '\n' ? control : `\\u${control.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}
