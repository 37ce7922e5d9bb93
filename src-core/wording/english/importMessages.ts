import type { ColumnName, LogNote, SetAsideReason, OddValues } from '../../log/logReport'
import type { NotText } from '../../log/encoding'
import type { Choice, Question, Refusal, RefusalReason, RowShown, ValueInUnit } from '../../log/refusal'
import type { Shift } from '../../log/shifts'
import { UNIT_TELLTALE } from '../../reference/meter'
import { fixed } from '../../units/rounding'
import { clock, isoDay } from '../../units/wallClock'
import { withControlsMarked } from '../controlCharacters'
import { dayText, spanText } from './dates'
import { type Message, message, messageText } from '../message'
import { count, listed } from './numbers'
import { glucoseDecimals, otherUnit } from '../../units/glucose'

/** One sentence for each reason a row is set aside; without the row's value. */
export const SET_ASIDE_DETAIL: Record<SetAsideReason, string> = {
  'not-glucose':
    'The row holds no glucose but an entry of another kind: insulin, food, exercise, an event or a note.',
  'control-solution': 'A test of control solution, not of blood.',
  'empty-value': 'The glucose cell is empty.',
  'unreadable-value': 'The glucose cell holds neither a number nor a marker such as HI or LO.',
  'impossible-value': 'No meter shows this number: glucose readings are between 1 and 1,000 mg/dL.',
  'empty-date': 'The date cell is empty.',
  'unreadable-date': 'The date or the time cannot be read, or does not exist in the calendar.',
  'future-date': 'The date is more than a day in the future: the meter clock was wrong.',
  'clock-reset': 'The date is years before the rest of the log: the meter clock had fallen back.',
  duplicate: 'The same reading is already in another row.',
  'repeated-header': 'The header, repeated.',
  footer: 'A closing or summary line, not a reading.',
  'ragged-row': 'The cells are shifted: a cell too many or too few pushes the others out of their columns.',
  'other-table': 'A row of another table in the file, one without glucose.',
  laboratory: 'A value of a laboratory, in serum or plasma, not one of a meter.',
  withdrawn: 'Marked as entered in error or cancelled.',
  derived: 'A mean or another sum of readings, not a reading.',
}

const NOT_TEXT: Record<Exclude<NotText['notText'], 'empty'>, string> = {
  spreadsheet:
    'is a spreadsheet workbook, not a CSV file. Open it in the spreadsheet program and save the sheet as CSV.',
  archive: 'is a packed archive, not a CSV file. Unpack it and choose the CSV file inside.',
  pdf:
    'is a PDF, not a CSV file, and has no readings attached. Export the readings as CSV where the PDF came from; ' +
    'a report of this program can be opened again only if its readings were attached when it was made.',
  picture: 'is a picture, not a CSV file. Export the readings as CSV from the meter or the app.',
  binary: 'is not a text file. Export the readings as CSV from the meter, the app or the spreadsheet.',
}

/** Why a log was not read, or what it leaves open; `choices`: those of its question, the likeliest first. */
function refusalMessage(reason: RefusalReason, choices: readonly Choice[]): Message {
  const answer = choices.at(0)?.answer
  switch (reason.key) {
    case 'empty-file':
      return message('The file is empty. Export the readings again.')
    case 'not-text':
      return message(`The file ${NOT_TEXT[reason.form]}`)
    case 'markup':
      return message(
        'The file holds data in another format (XML, a web page or a list of JSON), not a table. Export the readings as CSV, or as HL7 FHIR in JSON.',
      )
    case 'blanks':
      return message(
        'The columns of this file are separated by spaces, as in a print-out, so it is not clear which text belongs to which column. ' +
          'Export the readings as CSV, or open the file in a spreadsheet with fixed column widths and save it as CSV.',
      )
    case 'field-too-large':
      return message(
        'One field is longer than a million characters, so the file is damaged or not a table. Export the readings again.',
      )
    case 'two-values':
      return message(
        'Most glucose cells hold two values (first on this line), such as a range, or before and after a meal. It is not clear which is the reading, or when it was taken. ' +
          'Write one value in each cell, with a row or a column of its own.',
      )
    case 'several-tables':
      return message(
        'The file holds two tables of values, and nothing says which of them is glucose. Save the table of glucose as a file of its own, or ' +
          'write the word glucose above its values.',
      )
    case 'empty-visit':
      return message('It holds no log and no typed reading. Add a log.')
    case 'no-readings':
      return otherLog('The log has a header but no row with a readable glucose value and date.')
    case 'all-set-aside':
      return otherLog(
        `No row of the log gives a reading. The commonest reason: ${SET_ASIDE_DETAIL[reason.most]}`,
      )
    case 'no-date-column':
      return {
        what: 'No column is labelled as the date.',
        inTerminal: `Name it, for example --columns ${answer ?? 'date=1,time=2'}.`,
        inWindow: 'Which column says when a reading was taken?',
      }
    case 'several-date-columns':
    case 'several-time-columns':
      return whichIsIt('Two columns may hold the time of the reading, and they differ.', '--columns', choices)
    case 'several-glucose-columns':
      return {
        what: 'Several columns may hold glucose readings.',
        inTerminal: `Say which do: ${answersText('--columns', choices)}.`,
        inWindow: 'Which of them do?',
      }
    case 'several-names':
      return {
        what: 'The same header appears under different names: the readings may belong to different people.',
        inTerminal: `Save the ones you want as a separate file; if all belong to one person, name the glucose column: --columns ${answer ?? 'glucose=3'}.`,
        inWindow: 'Save the ones you want as a separate file, unless all belong to one person:',
      }
    case 'half-days':
      return {
        what: 'The times seem to be on a 12-hour clock without AM or PM: evenings may look like mornings.',
        inTerminal:
          'Say how to read them: --columns clock=12 (the second part of each day is after noon) or --columns clock=24 (as written).',
        inWindow: 'How should they be read?',
      }
    case 'no-glucose-column':
      return reason.headerless
        ? {
            what: 'No header names the glucose column and several columns hold numbers.',
            inTerminal: `Name the columns, for example --columns ${answer ?? 'date=1,time=2,glucose=3'}.`,
            inWindow: 'Which column holds the glucose?',
          }
        : {
            what: 'No column is labelled as glucose.',
            inTerminal: `Name it by its number or its header, for example --columns ${answer ?? 'glucose=NAME'}. A table with a column for each meal must first be rewritten with one row for each reading.`,
            inWindow: 'Which column holds the glucose?',
          }
    case 'moment-or-other':
      return {
        what: `The column ‘${withControlsMarked(reason.header)}’ may hold glucose readings of that time of day, or something else.`,
        inTerminal: `Say which column holds the readings, for example --columns glucose=${reason.other}; if several do, first put all their readings one below the other in one column.`,
        inWindow:
          'Which column holds the readings? If several do, first put all their readings one below the other in one column.',
      }
    case 'several-people':
      // None of them is named in a message.
      return {
        what: `Column ${reason.column} names ${reason.people} people, but a report is about one person.`,
        inTerminal: `Say whose readings are wanted, with the name as the column has it: --columns kind=${reason.column}:NAME.`,
        inWindow: 'Whose readings are wanted?',
      }
    case 'several-subjects':
      return {
        what: `The file holds readings of ${reason.people} people, but a report is about one person.`,
        inTerminal:
          'Say whose readings are wanted, with the name as the file has it: --columns kind=subject:NAME.',
        inWindow: 'Whose readings are wanted?',
      }
    case 'not-fhir':
      return message(
        'The file is JSON, but not of HL7 FHIR: it names no type of resource. Export the readings as CSV, or as a FHIR Bundle.',
      )
    case 'no-observation':
      return message(
        'The file is of HL7 FHIR, but holds no Observation. Export a Bundle with the glucose readings.',
      )
    case 'resource-too-large':
      return message(
        'One resource of the file is longer than 16 million characters: it is damaged, or carries something else than readings. Export the glucose Observations alone.',
      )
    case 'broken-json':
      return message(
        `The JSON breaks off or cannot be read after ${count(reason.after, 'entry', 'entries')}, and what follows would be missing. Export the file again.`,
      )
    case 'kinds-unknown': {
      const { n, named, more } = reason.kinds
      const names = `${named.map((name) => `‘${name}’`).join(', ')}${more > 0 ? ' and more' : ''}`
      return {
        what: `Column ${reason.column} names ${count(n, 'kind')} of entry that the log does not explain (${names}), and some of their values may not be glucose.`,
        inTerminal: `Say which are glucose with --columns kind=${reason.column}:NAME; separate several with |.`,
        inWindow: 'Which are glucose?',
      }
    }
    case 'no-such-column':
      return {
        what: `The log has no column '${reason.name}'.`,
        inTerminal: 'Name columns by their header or by number, counted from 1: --columns glucose=3.',
        inWindow: 'Undo, or remove the log and add it again to choose once more.',
      }
    case 'unreadable-columns':
      return {
        what: `The column list cannot be read at '${reason.part}'.`,
        inTerminal: 'Write what each column holds and its header or number: time=2,glucose=3,note=5.',
        inWindow: 'Remove the log and add it again to choose once more.',
      }
    case 'unit':
      return whichIsIt(UNIT_QUESTION[reason.open], '--log-unit', choices)
    case 'odd-values':
      return whichIsIt(oddValuesQuestion(reason.odd), '--log-unit', choices)
    case 'date-order': {
      const read = choices.map((choice) => `${choiceExample(choice)} (${choiceLabel(choice)})`).join(' or ')
      return {
        what: 'The dates can be read day first or month first: no row of the log settles which.',
        inTerminal: `The date on this line may be ${read}. Say which it is: ${answersText('--dates', choices)}.`,
        inWindow: '',
      }
    }
    case 'year':
      return {
        what: 'The dates name no year, only day and month, as on this line.',
        inTerminal:
          `In which year was the first one? Say it with --columns year=${reason.year}; after each December the year goes up by one. ` +
          'Or write the year into the dates.',
        inWindow: 'In which year was the first one? After each December the year goes up by one.',
      }
    case 'empty-period': {
      const [asked, covered] = [reason.asked, reason.covered].map(
        ({ from, to }) => `${isoDay(from)} to ${isoDay(to)}`,
      )
      return {
        what: `There are no readings from ${asked}. The readings cover ${covered}:`,
        inTerminal: `choose days within those with --${reason.which} FROM..TO.`,
        inWindow: 'choose days within those.',
      }
    }
  }
}

function otherLog(what: string): Message {
  return {
    what,
    inTerminal: 'Choose a log with readings, or name the columns with --columns.',
    inWindow: 'Choose a log with readings.',
  }
}

function whichIsIt(what: string, option: Question['option'], choices: readonly Choice[]): Message {
  return {
    what,
    inTerminal: `Say which it is: ${answersText(option, choices)}.`,
    inWindow: 'Which is it?',
  }
}

/** '--dates dmy (day first) or --dates mdy (month first)'. */
function answersText(option: Question['option'], choices: readonly Choice[]): string {
  return choices
    .map((choice) => {
      const typed = `${option} ${choice.answer}`
      return choice.label.of === 'unit' ? typed : `${typed} (${choiceLabel(choice)})`
    })
    .join(' or ')
}

/** The same as told in one place. */
export function refusalText(
  reason: RefusalReason,
  choices: readonly Choice[],
  place: 'terminal' | 'window',
): string {
  return messageText(refusalMessage(reason, choices), place)
}

export const HALF_DAYS_LABEL = {
  '12': 'When the times of a day start again, it is after noon',
  '24': 'As written',
} as const

/** One row as it would be read: 'line 4: 2026-03-02, 07:10, 6.4'. Shown where the person answers, never in a message. */
function rowPreview({ line, date, second, value, unit }: RowShown): string {
  const told = [
    date !== null && (typeof date === 'number' ? isoDay(date) : date.join('/')),
    second !== null && hoursAndMinutes(second / 60),
    unit === null ? value : `${value} ${unit}`,
  ]
  return `line ${line}: ${told.filter((part) => part !== false).join(', ')}`
}

export const OWN_READINGS =
  'This program wrote this file: rows of the logs that it could not use, and any lows among them, are not in it.'

/**
 * What a careful reader should know of how a log was read; in the terminal with the option that mends it. The window has
 * its own way beside the note.
 */
export function noteText(note: LogNote, place: 'terminal' | 'window'): string {
  switch (note.code) {
    case 'sensor-beside':
      return `The log has sensor values as well as finger-sticks; only the finger-sticks (column ${note.column + 1}) are read.`
    case 'same-glucose-beside':
      return `${note.columns} columns hold the same glucose; column ${note.column + 1} is read.`
    case 'time-by-content':
      return `Column ${note.column + 1} is read as the time of day, going by what it holds.`
    case 'several-in-a-line':
      return `The table has ${note.columns} columns of readings; each filled cell is a reading.`
    case 'time-of-several':
      return 'Each line holds several readings but one time of day, so the readings keep their date without a time.'
    case 'year-given':
      return note.titled
        ? `The dates name no year; the first is taken to be in ${note.year}, the year written above them.`
        : `The dates name no year; the first was said to be in ${note.year}.`
    case 'odd-values': {
      const { count: n, stated } = note.odd
      const which = `${count(n, 'value')} of a size that no meter shows in ${asNamed(note.odd)} (first on line ${note.line})`
      return note.mixed
        ? `As answered, ${which} ${n === 1 ? 'is' : 'are'} read in ${otherUnit(stated)}.`
        : `As answered, ${which} ${n === 1 ? 'counts' : 'count'} as written.`
    }
    case 'log-of-sensor':
      return 'This log comes from a sensor. With finger-sticks beside it, every figure comes from the finger-sticks alone.'
    case 'grams-per-litre':
      return 'The log gives grams per litre; 1 g/L is 100 mg/dL, and its values are shown in mg/dL.'
    case 'decimals-parted':
      return 'Decimal commas split the values of this comma-separated file into two cells; the two are read as one value, such as 5,6.'
    case 'character-set-guessed':
      return `The character set was guessed: ${note.label}.`
    case 'instants':
      return `The log gives its times with a time zone (such as UTC); they are shown in the time zone ${note.zone}.`
    case 'months-above':
      return 'The rows give only the day of the month; month and year are in a line above them.'
    case 'quotes-broken':
      return `The quotation mark that opens on line ${note.line} closes inside what looks like a separate row; that row is read as a row${note.count > 1 ? `, and so are ${note.count - 1} more` : ''}. If it is part of the note, take it out of the log.`
    case 'own-readings':
      return OWN_READINGS
    case 'placeholder-time':
      return `Every row gives the same time, ${clock(note.second)}, which is treated as no time at all: the readings keep their date without a time.`
    case 'times-in-words':
      return `${count(note.rows, 'row')} ${note.rows === 1 ? 'names' : 'name'} a part of the day in words but no clock time: ${note.rows === 1 ? 'its reading keeps its' : 'their readings keep their'} date without a time.`
    case 'dates-filled-down':
      return `${count(note.rows, 'row')} without a date took the date of the row above: the table gives it on the first row of a day.`
    case 'moved': {
      const how = place === 'terminal' ? shiftText(note.shift) : movedText(note.shift)
      return `${count(note.readings, 'reading')} moved as you asked, because the meter's clock was wrong (${how}). The times in the log itself are unchanged.`
    }
    case 'half-day-off':
      return (
        `${spanText(note.shift.from, note.shift.to)}: the times of ${count(note.readings, 'reading')} look half a day out; they fall at hours ` +
        `that are hardly tested on other days. Nothing was moved. ${mendText(note.shift, place)}`
      )
    case 'years-off': {
      const by = `${count(Math.abs(note.years), 'year')} ${note.years > 0 ? 'before' : 'after'}`
      return (
        `${spanText(note.shift.from, note.shift.to)}: ${count(note.readings, 'reading')} dated ${by} the rows around ` +
        `them in the file. Nothing was moved. ${mendText(note.shift, place)}`
      )
    }
  }
}

/** How a stretch of times is moved. */
function mendText(shift: Shift, place: 'terminal' | 'window'): string {
  return place === 'terminal'
    ? `If the meter's clock was wrong: --shift ${shiftText(shift)}`
    : `If the meter's clock was wrong, move them ${laterText(shift.minutes)}.`
}

/** '29 March to 2 April 2026, 12 hours later'. */
export function movedText({ from, to, minutes }: Pick<Shift, 'from' | 'to' | 'minutes'>): string {
  return `${spanText(from, to)}, ${laterText(minutes)}`
}

/** '12 hours later', '365 days earlier', '1 hour and 30 minutes later'. */
function laterText(minutes: number): string {
  const size = Math.abs(minutes)
  const parts = [
    [Math.floor(size / 1440), 'day'],
    [Math.floor((size % 1440) / 60), 'hour'],
    [size % 60, 'minute'],
  ] as const
  const told = parts.filter(([n]) => n > 0).map(([n, name]) => count(n, name))
  return `${listed(told.length > 0 ? told : [count(0, 'minute')])} ${minutes < 0 ? 'earlier' : 'later'}`
}

/** What the log leaves open about its unit. */
const UNIT_QUESTION = {
  'foreign-unit':
    'The log names a unit of glucose other than mg/dL, mmol/L and g/L; its values cannot be read as they are.',
  'values-fit-both': 'The log does not say its unit, and its values fit both mg/dL and mmol/L.',
  'very-low-values':
    'The log does not say its unit, and in mmol/L most of its values would be very low. If they are grams per litre, write g/L into the header.',
  'two-magnitudes':
    'The log does not say its unit, and its values look like mg/dL in some rows and mmol/L in others.',
  'some-rows-without': 'Some rows name mg/dL, others mmol/L, and some name no unit.',
} as const

/** Said where values cannot be of the unit that header or rows name. */
function oddValuesQuestion(odd: OddValues): string {
  const { count: n, of, stated, saidBy, grams } = odd
  const limit = grams
    ? 'in g/L no meter shows more than 6, and hardly a value above 3 comes without hundredths'
    : stated === 'mg/dL'
      ? `no meter shows less than ${UNIT_TELLTALE.lowestMgDl} mg/dL, or tenths of it`
      : `no meter shows more than ${UNIT_TELLTALE.highestMmol} mmol/L`
  const who = saidBy === 'row' ? 'The row on this line' : saidBy === 'log' ? 'The log' : 'The header'
  const values =
    of === 1
      ? 'its value looks'
      : n === of
        ? 'its values look'
        : `${n} of ${of} values ${n === 1 ? 'looks' : 'look'}`
  const where = of > 1 && saidBy !== 'row' ? ' (first on this line)' : ''
  return `${who} says ${asNamed(odd)}, but ${values} like ${otherUnit(stated)}${where}: ${limit}.`
}

/** The unit as the log has it: grams per litre are kept as mg/dL. */
function asNamed({ stated, grams }: OddValues): string {
  return grams ? 'g/L' : stated
}

/** What an answer to a question says. */
export function choiceLabel({ label }: Choice): string {
  switch (label.of) {
    case 'unit':
      return label.unit
    case 'all-in':
      return `all in ${label.unit}`
    case 'as-rows-say':
      return 'as each row says'
    case 'each-by-size':
      return 'both units are mixed: each value in the unit that its size fits'
    case 'odd-in-other':
      return `both units are mixed: ${label.unit}, and the values that cannot be ${label.unit} in ${label.unit === 'g/L' ? 'mmol/L' : 'the other unit'}`
    case 'dates':
      return DATE_ORDER_LABEL[label.order]
    case 'year':
      return `The first date is in ${label.year}`
    case 'clock':
      return HALF_DAYS_LABEL[label.hours]
    case 'columns':
      return `${listed(label.columns.map(columnLabel))}: each filled cell is a reading`
    case 'column':
      return columnLabel(label)
    case 'kind':
      return `Glucose is ‘${label.name}’`
    case 'person':
      return `The readings of ‘${label.name}’`
    case 'one-person':
      return 'All are readings of one person'
  }
}

/** A piece of the log read by an answer, such as '5 March 2026'; shown where the person answers, never in a message. */
export function choiceExample({ example }: Choice): string {
  switch (example.of) {
    case 'rows':
      return example.rows.map(rowPreview).join(' · ')
    case 'cells':
      return example.text
    case 'values':
      return example.rows.map(({ line, read, other }) => rowExample(line, read, other)).join(' · ')
    case 'day':
      return dayText(example.day, 'with-year')
  }
}

/** What the whole log would come to with an answer: '1 February to 12 June 2026; 4 rows in the future'; '' where nothing can be said. */
export function choiceEffect({ effect }: Choice): string {
  switch (effect?.of) {
    case 'mean':
      return unitEffect(effect.read, effect.other)
    case 'days':
      return `${spanText(effect.from, effect.to)}${effect.future === 0 ? '' : rowsInFuture(effect.future)}`
    case undefined:
      return ''
  }
}

/** '; 4 rows in the future'. */
function rowsInFuture(rows: number): string {
  return `; ${count(rows, 'row')} in the future`
}

export const DATE_ORDER_LABEL = { dmy: 'day first', mdy: 'month first', ymd: 'year first' } as const

/** A column's header, every control character in it seen as a mark, or its number where it has none. */
export function columnLabel({ index, header }: ColumnName): string {
  return header === '' ? `column ${index + 1}` : withControlsMarked(header)
}

/** What an entry of a log is called: its kind or its column. */
export function entryLabel(label: string | number): string {
  return typeof label === 'number' ? `column ${label}` : label
}

function valueText([value, unit]: ValueInUnit): string {
  return `${fixed(value, glucoseDecimals(unit))} ${unit}`
}

/** 'line 2: 25 mg/dL (1.4 mmol/L)': one value read one way, as it is written. Shown where the person answers, never in a message. */
function rowExample(line: number, read: ValueInUnit, other: ValueInUnit): string {
  const [value, unit] = read
  const written = Number.isInteger(value) ? fixed(value, glucoseDecimals(unit)) : String(value)
  return `line ${line}: ${written} ${unit} (${valueText(other)})`
}

/** What the unit would make of the log's mean. */
function unitEffect(read: ValueInUnit, other: ValueInUnit): string {
  return `mean ${valueText(read)} (${valueText(other)})`
}

/** The log that a refusal is about, or the visit. */
export function refusedName(log: string | null): string {
  return log ?? 'the visit'
}

/** A refusal as the command line prints it: file, line, what happened, the code in brackets at the end. */
export function refusalLine({ log, line, reason, question, code }: Refusal): string {
  const name = refusedName(log)
  const where = line === null ? name : `${name}, line ${line}`
  return `${where}: ${refusalText(reason, question?.choices ?? [], 'terminal')} (${code})`
}

/** '2026-03-29..2026-04-02=+12:00', as the option --shift takes it. */
export function shiftText({ from, to, minutes }: Shift): string {
  return `${isoDay(from)}..${isoDay(to)}=${minutes < 0 ? '-' : '+'}${hoursAndMinutes(Math.abs(minutes))}`
}

/** '07:10'; 24:00 and more stay what they are. */
function hoursAndMinutes(minutes: number): string {
  return [minutes / 60, minutes % 60].map((part) => String(Math.floor(part)).padStart(2, '0')).join(':')
}
