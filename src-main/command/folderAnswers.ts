import Papa from 'papaparse'
import type { LogAnswers } from '../../src-core/log/logSource'
import { parseNamedColumns } from '../../src-core/log/namedColumns'
import type { Words } from '../../src-core/wording/words'

/** Beside the logs of a folder: what single ones need to be told. */
export const ANSWERS_FILE = 'answers.csv'

/** What a single log of a folder is told. */
export interface FolderAnswers {
  readonly answers: LogAnswers
  readonly label: string | null
}

export type AnswersRead =
  { readonly answers: ReadonlyMap<string, FolderAnswers> } | { readonly wrong: string }

const COLUMNS = ['file', 'unit', 'dates', 'columns', 'label'] as const
/** The column in which a question is answered that the command line answers by an option. */
export const COLUMN_OF = { '--log-unit': 'unit', '--dates': 'dates', '--columns': 'columns' } as const
const UNITS = ['mg/dL', 'mmol/L', 'mixed'] as const
const ORDERS = ['ymd', 'dmy', 'mdy'] as const

/** The answers of a table with those columns, by the names of the logs; or what is wrong with it. */
export function answersIn({ overview }: Words, text: string): AnswersRead {
  const delimiter = [',', ';', '\t'].find((mark) => text.split('\n')[0].includes(mark)) ?? ','
  const [heads = [], ...rows] = Papa.parse(text.replace(/^\uFEFF/, ''), { delimiter }).data
  const places = COLUMNS.map((name) => heads.findIndex((head) => head.trim().toLowerCase() === name))
  if (places[0] < 0) return { wrong: overview.answersWithoutFile }
  const answers = new Map<string, FolderAnswers>()
  for (const [i, row] of rows.entries()) {
    const [file, unit, dates, columns, label] = places.map((place) => (row[place] ?? '').trim())
    if (file === '') continue
    const wrong = (column: string, said: string) => ({ wrong: overview.answersWrong(i + 2, column, said) })
    const saidUnit = UNITS.find((one) => one.toLowerCase() === unit.toLowerCase())
    const saidDates = ORDERS.find((one) => one === dates.toLowerCase())
    if (unit !== '' && saidUnit === undefined) return wrong('unit', unit)
    if (dates !== '' && saidDates === undefined) return wrong('dates', dates)
    if (columns !== '' && 'unreadable' in parseNamedColumns(columns)) return wrong('columns', columns)
    answers.set(file.normalize('NFC'), {
      answers: {
        ...(saidUnit && { unit: saidUnit }),
        ...(saidDates && { dates: saidDates }),
        ...(columns !== '' && { columns }),
      },
      label: label === '' ? null : label,
    })
  }
  return { answers }
}
