import { DELIMITERS, type DelimiterName, headRecords } from './dialect'
import { parseNamedColumns } from './namedColumns'
import { readTables } from './readTables'
import type { RowShown } from './refusal'
import { DAY, type RowTable, VALUE } from './rowTable'
import { withYears, type YearlessDates } from './yearless'

/** Rows shown of each answer. */
const ROWS_SHOWN = 2

/** Two rows of a log's beginning as they would be read under an answer about its columns; none where none would be. */
export function previewOf(head: string, delimiter: DelimiterName, columns: string): readonly RowShown[] {
  const named = parseNamedColumns(columns)
  if ('unreadable' in named) return []
  const { rows } = readTables(headRecords(head, DELIMITERS[delimiter]), named, DELIMITERS[delimiter], 1)
  return previewRows(rows)
}

/** The first and the last row of a log's beginning with their dates in a year. */
export function previewOfYear(
  head: string,
  delimiter: DelimiterName,
  yearless: YearlessDates,
  year: number,
): readonly RowShown[] {
  const records = withYears(headRecords(head, DELIMITERS[delimiter]), yearless, year)
  const { rows } = readTables(records, null, DELIMITERS[delimiter], 1)
  return previewRows(rows, { withLast: true })
}

/** The first rows that are readings, and the last in place of the second where asked. */
export function previewRows(
  rows: RowTable,
  {
    withLast = false,
    isShown = () => true,
  }: { readonly withLast?: boolean; readonly isShown?: (row: number) => boolean } = {},
): readonly RowShown[] {
  const shown: RowShown[] = []
  for (let row = 0; row < rows.n; row++) {
    if (!isShown(row)) continue
    if (shown.length === ROWS_SHOWN) {
      if (!withLast) break
      if (rows.fates.reasonOf(row) === null && rows.valueKind[row] === VALUE.number) shown.pop()
      else continue
    }
    if (rows.fates.reasonOf(row) !== null || rows.valueKind[row] !== VALUE.number) continue
    const second = rows.secondOf(row)
    shown.push({
      line: rows.line[row],
      date: dateOf(rows, row),
      second: typeof second === 'number' ? second : null,
      value: rows.value[row],
      unit: rows.unitOf(row),
    })
  }
  return shown
}

function dateOf(rows: RowTable, row: number): RowShown['date'] {
  if (rows.dayKind[row] === DAY.known) return rows.day[row]
  if (rows.dayKind[row] !== DAY.numbers) return null
  const { a, b, c } = rows.numbersOf(row)
  return [a, b, c]
}
