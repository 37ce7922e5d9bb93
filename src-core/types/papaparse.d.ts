// The part of papaparse that the program uses. The published types pull in Node's and the DOM's.
interface ParseResult {
  readonly data: string[][]
  readonly errors: readonly { readonly type: string; readonly code: string; readonly row?: number }[]
}
declare const Papa: {
  parse(
    text: string,
    config: {
      delimiter: string
      newline?: '\n' | '\r' | '\r\n'
      quoteChar?: string
      escapeChar?: string
      header?: false
      skipEmptyLines?: false
    },
  ): ParseResult
  unparse(
    rows: readonly (readonly (string | number)[])[],
    config: { delimiter?: string; newline?: string; escapeFormulae?: boolean | RegExp; quotes?: boolean },
  ): string
}
export default Papa
