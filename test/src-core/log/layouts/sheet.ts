import type { Chance } from './chance'
import { type ClockForm, type DateForm, pickClockForm, pickDateForm, pickUnitText } from './forms'
import { digitWriter, type Oddity, pickOddities } from './oddities'
import type { Truth, Unit } from './truth'
import { type Language, LANGUAGE_NAMES, wordsOf } from './words'
import type { LanguageWords } from './words/words'

/** A line of the file before it is written, with the readings that it holds. */
export interface Line {
  readonly cells: readonly string[]
  readonly truths?: readonly Truth[]
}

/** How one file is written, and what was noted about it on the way. */
export interface Sheet {
  readonly chance: Chance
  readonly language: Language
  readonly words: LanguageWords
  readonly unit: Unit
  readonly unitText: string
  readonly decimal: '.' | ','
  readonly delimiter: string
  readonly date: DateForm
  readonly clock: ClockForm
  /** How headers are written: as they are, small, large, with low lines, without accents. */
  readonly headerCase: 'as-is' | 'small' | 'large' | 'snake' | 'plain'
  /** What the file truly cannot tell, or tells so faintly that a question is fair. */
  readonly mayAsk: Set<string>
  /** What the file is made of, for the tables of results. */
  readonly features: Set<string>
  readonly oddities: ReadonlySet<Oddity>
  /** Every day written in the date form of the file. */
  readonly days: Set<number>
}

const POINT_LANGUAGES: readonly Language[] = ['en', 'ja', 'zh']

export function newSheet(chance: Chance): Sheet {
  const oddities = pickOddities(chance)
  const language = chance.odds(0.2) ? 'en' : chance.pick(LANGUAGE_NAMES)
  const inGrams = oddities.has('g/L')
  const unit: Unit = inGrams || chance.odds(0.5) ? 'mg/dL' : 'mmol/L'
  const decimal = POINT_LANGUAGES.includes(language) || chance.odds(0.25) ? '.' : ','
  return {
    chance,
    language,
    words: wordsOf(language),
    unit,
    unitText: inGrams ? chance.pick(['g/L', 'g/l']) : pickUnitText(chance, language, unit),
    decimal,
    delimiter: oddities.has('parted decimals') && decimal === ',' ? ',' : chance.weighed([[',', decimal === ',' ? 2 : 6], [';', 4], ['\t', 1.5], ['|', 0.5]] as const), // prettier-ignore
    date: pickDateForm(chance, language, oddities),
    clock: pickClockForm(chance, language, oddities),
    headerCase: chance.weighed([['as-is', 8], ['small', 1], ['large', 1], ['snake', 0.7], ['plain', 0.7]] as const), // prettier-ignore
    mayAsk: new Set(oddities.has('yearless') ? ['dates'] : []),
    oddities,
    features: new Set([...oddities].map((name) => `odd: ${name}`)),
    days: new Set(),
  }
}

/** A day in the date form of the file. */
export function dayText(sheet: Sheet, day: number): string {
  sheet.days.add(day)
  return sheet.date.write(day)
}

/** A header word in the file's manner. */
export function headerText({ headerCase, language }: Sheet, text: string): string {
  if (headerCase === 'small') return text.toLocaleLowerCase(language)
  if (headerCase === 'large') return text.toLocaleUpperCase(language)
  if (headerCase === 'snake') return text.toLocaleLowerCase(language).replaceAll(/[ ,]+/g, '_')
  if (headerCase === 'plain')
    return /\p{Script=Latin}/u.test(text) ? text.normalize('NFD').replaceAll(/\p{M}/gu, '') : text
  return text
}

/** A header of one of a concept's words, with a unit behind it where one is given. */
export function header(sheet: Sheet, words: string, unit = ''): string {
  const { chance } = sheet
  const word = chance.word(words)
  return headerText(sheet, unit === '' ? word : withUnit(sheet, word, unit))
}

export function withUnit({ chance, words, delimiter }: Sheet, word: string, unit: string): string {
  const forms = [`${word} (${unit})`, `${word} [${unit}]`, `${word} ${unit}`]
  if (words.inUnit !== ',') forms.push(`${word} ${words.inUnit} ${unit}`)
  if (delimiter !== ',') forms.push(`${word}, ${unit}`)
  return chance.pick(forms)
}

export interface Written {
  readonly text: string
  /** The readings with the 1-based line where their row starts. */
  readonly truths: readonly (Truth & { readonly line: number })[]
}

/** The file's text: rows of the same width get the delimiter, notes the quotes that they need. */
export function write(sheet: Sheet, lines: readonly Line[]): Written {
  const { chance, delimiter, oddities, language } = sheet
  const quoteAll = chance.odds(0.15)
  const newline = chance.odds(0.5) ? '\r\n' : '\n'
  const tail = chance.odds(0.05) ? delimiter : ''
  const inScript = oddities.has('digits') ? digitWriter(chance, language) : (text: string) => text
  const isParted = oddities.has('parted decimals') && delimiter === ','
  const cell = (written: string): string => {
    const text = inScript(written)
    if (isParted && /^\d+,\d+$/.test(text)) return text
    return (quoteAll && text !== '') || text.includes(delimiter) || /["\r\n]/.test(text)
      ? `"${text.replaceAll('"', '""')}"`
      : text
  }
  let slips = chance.between(1, 2)
  /** The cells of a row with a slip of the pen in one of its texts, as it would stand in the file. */
  const slipped = (cells: readonly string[], isReading: boolean): readonly string[] => {
    const written = cells.map(cell)
    const at = written.findLastIndex(
      (text) => /^\p{L}[^"\d]*$/u.test(text) && !/^(?:[ap]\.?\s?m|hi$|lo$)/i.test(text),
    )
    if (!isReading || at < 0 || slips === 0 || !chance.odds(0.3)) return written
    const slip = (text: string): readonly string[] => {
      slips--
      return written.with(at, text)
    }
    if (oddities.has('inch mark')) return slip(`${written[at]} 6" roll`)
    if (oddities.has('open quote')) return slip(`"${written[at]}`)
    if (oddities.has('cell too many')) return slip(`${written[at]}${delimiter} ${written[at]}`)
    return written
  }
  const truths: (Truth & { line: number })[] = []
  let text = chance.odds(0.2) ? '\ufeff' : ''
  let line = 1
  for (const { cells, truths: held = [] } of lines) {
    for (const truth of held) truths.push({ ...truth, line })
    const record = slipped(cells, held.length > 0).join(delimiter) + (cells.length > 1 ? tail : '') + newline
    text += record
    line += record.split('\n').length - 1
  }
  return { text: chance.odds(0.2) ? text.slice(0, -newline.length) : text, truths }
}
