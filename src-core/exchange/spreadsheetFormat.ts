/** A spreadsheet runs a cell that starts like this as a formula (OWASP, CSV Injection). */
const FORMULA_START = /^[=+\-@＝＋－＠\t\n\r]/

/** What parts cells in a spreadsheet that is set to another language, or told so; commas are quoted anyway. */
const OTHER_SEPARATOR = /[;\t|]/

/**
 * How tables are written: text that a spreadsheet would run as a formula is quoted and led by an apostrophe; so is quoted
 * what holds a separator of any spreadsheet.
 */
export const SPREADSHEET_FORMAT = {
  delimiter: ',',
  newline: '\n',
  escapeFormulae: FORMULA_START,
  // The types do not know yet that each cell may be asked about.
  quotes: ((cell: unknown) => typeof cell === 'string' && OTHER_SEPARATOR.test(cell)) as unknown as boolean,
}
