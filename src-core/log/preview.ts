import { rowPreview } from '../wording/importMessages'
import { DELIMITERS, type DelimiterName, headRecords } from './dialect'
import { parseNamedColumns } from './namedColumns'
import { readTables } from './readTables'
import { DAY, type RowTable, VALUE } from './rowTable'

/** Rows shown of each answer. */
const ROWS_SHOWN = 2

/** Two rows of a log's beginning as they would be read under an answer about its columns; '' where none would be. */
export function previewOf(head: string, delimiter: DelimiterName, columns: string): string {
  const named = parseNamedColumns(columns)
  if ('unreadable' in named) return ''
  const { rows } = readTables(headRecords(head, DELIMITERS[delimiter]), named, DELIMITERS[delimiter], 1)
  return previewRows(rows)
}

function previewRows(rows: RowTable): string {
  const shown: string[] = []
  for (let row = 0; row < rows.n && shown.length < ROWS_SHOWN; row++) {
    if (rows.reasonOf(row) !== null || rows.valueKind[row] !== VALUE.number) continue
    const second = rows.secondOf(row)
    const day = rows.dayKind[row] === DAY.known ? rows.day[row] : null
    shown.push(
      rowPreview({
        line: rows.line[row],
        day,
        numbers: rows.dayKind[row] === DAY.numbers ? rows.numbersOf(row) : null,
        second: typeof second === 'number' ? second : null,
        value: rows.value[row],
        unit: rows.unitOf(row),
      }),
    )
  }
  return shown.join(' · ')
}
