import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { extname, join } from 'node:path'
import { distance } from 'fastest-levenshtein'
import Papa from 'papaparse'
import { decodedText, detectEncoding } from '../../src-core/log/encoding'
import type { LogAnswers } from '../../src-core/log/logSource'
import { parseNamedColumns } from '../../src-core/log/namedColumns'
import type { Words } from '../../src-core/wording/words'

/** Beside the logs of a folder: what single ones need to be told. */
export const ANSWERS_FILE = 'answers.csv'

/** Whether a file is the table of answers, or was meant as it: then it is no log. */
export function isAnswersFile(name: string): boolean {
  return /^answers\.(csv|tsv|txt|xlsx|xls|ods)$/i.test(name)
}

/** What a single log of a folder is told. */
export interface FolderAnswers {
  readonly answers: LogAnswers
  readonly label: string | null
}

export type AnswersRead =
  | {
      /** By the names of the logs, in NFC. */
      readonly answers: ReadonlyMap<string, FolderAnswers>
      /** The line of each. */
      readonly lines: ReadonlyMap<string, number>
    }
  | { readonly wrong: string }

const COLUMNS = ['file', 'unit', 'dates', 'columns', 'label'] as const
/** The column in which a question is answered that the command line answers by an option. */
export const COLUMN_OF = { '--log-unit': 'unit', '--dates': 'dates', '--columns': 'columns' } as const
const UNITS = ['mg/dL', 'mmol/L', 'mixed'] as const
const ORDERS = ['ymd', 'dmy', 'mdy'] as const

/** The answers beside the logs; none where there is no table of them. */
export function answersBeside(words: Words, folder: string): AnswersRead {
  const path = answersPath(folder)
  return existsSync(path)
    ? answersIn(words, tableText(readFileSync(path)))
    : { answers: new Map<string, FolderAnswers>(), lines: new Map<string, number>() }
}

/** Where the table stands, in whatever case its name is written. */
export function answersPath(folder: string): string {
  return join(folder, readdirSync(folder).find(isCsv) ?? ANSWERS_FILE)
}

function isCsv(name: string): boolean {
  return name.toLowerCase() === ANSWERS_FILE
}

/** Spreadsheets save names with umlauts in older encodings too. */
function tableText(bytes: Uint8Array): string {
  const source = { chunks: () => [bytes] }
  const encoding = detectEncoding(source)
  return 'notText' in encoding ? '' : [...decodedText(source, encoding.label)].join('')
}

/** Further apart, in letters to change, a name is likely another person's (design choice). */
const MOST_LETTERS_APART = 2

function stemOf(name: string): string {
  return name.slice(0, name.length - extname(name).length).toLowerCase()
}

/** What is told of answers that no log gets: names without a log, and a table among the reports. */
export function unusedAnswers(
  { overview }: Words,
  lines: ReadonlyMap<string, number>,
  names: readonly string[],
  { folder, out }: { readonly folder: string; readonly out: string },
): readonly string[] {
  const known = new Set(names.map((name) => name.normalize('NFC')))
  const unknown = [...lines].filter(([said]) => !known.has(said))
  const elsewhere = join(out, ANSWERS_FILE)
  const beside = readdirSync(folder).filter(isAnswersFile)
  return [
    ...unknown.map(([said, line]) => overview.answersUnknown(line, said, nearest(said))),
    ...beside.filter((name) => !isCsv(name)).map((name) => overview.answersOtherKind(name)),
    ...(existsSync(elsewhere) && !beside.some(isCsv) ? [overview.answersElsewhere(elsewhere, folder)] : []),
  ]

  /** A log within a person's folder is answered under the folder. */
  function nearest(said: string): string | null {
    const [person, ...within] = said.split(/[/\\]/)
    if (within.length > 0 && known.has(person)) return person
    const stem = stemOf(said)
    const near = [...known].toSorted((one, other) => apart(one) - apart(other)).at(0)
    return near !== undefined && apart(near) <= MOST_LETTERS_APART ? near : null

    function apart(name: string): number {
      return distance(stemOf(name), stem)
    }
  }
}

/** The answers of a table with those columns, by the names of the logs; or what is wrong with it. */
function answersIn({ overview }: Words, text: string): AnswersRead {
  const delimiter = [',', ';', '\t'].find((mark) => text.split('\n')[0].includes(mark)) ?? ','
  const [heads = [], ...rows] = Papa.parse(text.replace(/^\uFEFF/, ''), { delimiter }).data
  const places = COLUMNS.map((name) => heads.findIndex((head) => head.trim().toLowerCase() === name))
  if (places[0] < 0) return { wrong: overview.answersWithoutFile }
  const answers = new Map<string, FolderAnswers>()
  const lines = new Map<string, number>()
  for (const [i, row] of rows.entries()) {
    const [file, unit, dates, columns, label] = places.map((place) => (row[place] ?? '').trim())
    if (file === '') continue
    const wrong = (column: string, said: string) => ({ wrong: overview.answersWrong(i + 2, column, said) })
    const saidUnit = UNITS.find((one) => one.toLowerCase() === unit.toLowerCase())
    const saidDates = ORDERS.find((one) => one === dates.toLowerCase())
    if (unit !== '' && saidUnit === undefined) return wrong('unit', unit)
    if (dates !== '' && saidDates === undefined) return wrong('dates', dates)
    if (columns !== '' && 'unreadable' in parseNamedColumns(columns)) return wrong('columns', columns)
    lines.set(file.normalize('NFC'), i + 2)
    answers.set(file.normalize('NFC'), {
      answers: {
        ...(saidUnit && { unit: saidUnit }),
        ...(saidDates && { dates: saidDates }),
        ...(columns !== '' && { columns }),
      },
      label: label === '' ? null : label,
    })
  }
  return { answers, lines }
}
