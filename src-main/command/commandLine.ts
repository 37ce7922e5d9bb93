import { parseArgs } from 'node:util'
import { closest, distance } from 'fastest-levenshtein'
import {
  parseGoal,
  parseTargets,
  type RangeFault,
  type RangeRequest,
  type TargetRequest,
} from '../../src-core/analysis/targets'
import { parseNamedColumns } from '../../src-core/log/namedColumns'
import type { LogAnswers } from '../../src-core/log/logSource'
import type { DaySpan } from '../../src-core/log/readings'
import type { Printed } from '../../src-core/model/printed'
import { parseShift, type Shift } from '../../src-core/log/shifts'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import { isZone } from '../../src-core/units/timeZone'
import { parseIsoDay } from '../../src-core/units/wallClock'
import type { RangeOption } from '../../src-core/wording/english/targets'
import {
  FILES_ALONE,
  type OptionName,
  optionLines,
  OUTPUT_NAMES,
  type OutputName,
  PARSE_OPTIONS,
} from './options'
import type { Words } from '../../src-core/wording/words'

/** The lines that --help prints. */
export function helpLines({ commandLine, commandOptions }: Words): readonly string[] {
  return commandLine.helpText(optionLines(commandOptions)).split('\n')
}

/** What the command line asks for. */
export interface Command {
  readonly logs: readonly string[]
  /** Where each output goes; null where it is left out. */
  readonly outputs: Readonly<Record<OutputName, string | null>>
  /** Whether the visit is saved enciphered. */
  readonly protect: boolean
  /** Whether visits that were not opened, and files that are not this program's, may be written over. */
  readonly replace: boolean
  /** Whether the report carries its readings. */
  readonly attach: boolean
  readonly passphraseFd: number | null
  readonly unit: GlucoseUnit | null
  readonly answers: LogAnswers
  readonly shifts: readonly Shift[]
  /** Null where nothing is asked. */
  readonly zone: string | null
  readonly period: DaySpan | null
  readonly targets: TargetRequest | null
  /** The person's own goal before meals. */
  readonly goal: RangeRequest | null
  /** A second period to set beside the first. */
  readonly versus: DaySpan | null
  /** A file that tells what else is known about the measuring. */
  readonly kit: string | null
  /** 0 for none, Infinity for all; null where nothing is asked. */
  readonly diaryDays: number | null
  readonly printed: Printed
  /** A folder of logs, each of which gets a report. */
  readonly each: string | null
  /** Whether the list of a folder goes to standard output, and nothing else. */
  readonly jsonl: boolean
  /** The address of a Redis by which other computers make the reports of the folder; it may hold a password. */
  readonly queue: string | null
  /** Whether this is one of those. */
  readonly worker: boolean
  /** Null where nothing is asked. */
  readonly paper: 'A4' | 'Letter' | null
  readonly label: string | null
  /** Whether only what went wrong is said. */
  readonly quiet: boolean
}

export type ParsedCommand =
  | { readonly kind: 'run'; readonly command: Command }
  | { readonly kind: 'help' }
  | { readonly kind: 'version' }
  | { readonly kind: 'remove-traces' }
  | { readonly kind: 'wrong'; readonly message: string }

/** A fault of the command line, to be told to the person who typed it. */
class Wrong extends Error {
  constructor(readonly told: (words: Words) => string) {
    super()
  }
}

/** Most of what is told of the command line. */
function wrong(told: (words: Words['commandLine']) => string): Wrong {
  return new Wrong(({ commandLine }) => told(commandLine))
}

/** Reads the arguments after the program's name. */
export function parseCommand(words: Words, args: readonly string[]): ParsedCommand {
  try {
    return parsed(args)
  } catch (error) {
    if (error instanceof Wrong) return { kind: 'wrong', message: error.told(words) }
    throw error
  }
}

type Values = ReturnType<typeof parseArgs<{ options: typeof PARSE_OPTIONS }>>['values']

/** What the argument reader would refuse in words of its own. */
function checkOption(token: {
  readonly name: string
  readonly rawName: string
  readonly value?: string | undefined
  readonly inlineValue?: boolean | undefined
}): void {
  const { name, rawName, value, inlineValue } = token
  const option = Object.hasOwn(PARSE_OPTIONS, name) ? PARSE_OPTIONS[name as OptionName] : null
  if (option === null || rawName !== `--${name}`) {
    throw wrong((told) => told.noOption(rawName, nearestOption(name)))
  }
  if (option.type === 'boolean') {
    if (value !== undefined) throw wrong((told) => told.takesNoValue(rawName))
  } else if (value === undefined || (!inlineValue && /^-./.test(value))) {
    throw wrong((told) => told.needsValueWithDash(rawName))
  }
}

/** Further apart, in letters to change, an option is not likely to be meant (design choice). */
const MOST_LETTERS_APART = 2

/** The option that was likely meant; null where none is near. */
function nearestOption(name: string): string | null {
  const near = closest(name.toLowerCase(), Object.keys(PARSE_OPTIONS))
  return distance(name.toLowerCase(), near) <= MOST_LETTERS_APART ? `--${near}` : null
}

function parsed(args: readonly string[]): ParsedCommand {
  const { positionals, tokens, ...parsedArgs } = parseArgs({
    args: [...args],
    allowPositionals: true,
    strict: false,
    tokens: true,
    options: PARSE_OPTIONS,
  })
  for (const token of tokens) if (token.kind === 'option') checkOption(token)
  // As they are declared, now that each was looked at.
  const values = parsedArgs.values as Values
  if (values.help) return { kind: 'help' }
  if (values.version) return { kind: 'version' }
  for (const token of tokens) {
    if (token.kind !== 'option') continue
    if (
      !('multiple' in PARSE_OPTIONS[token.name as OptionName]) &&
      tokens.some((other) => other !== token && other.kind === 'option' && other.name === token.name)
    ) {
      throw wrong((told) => told.standsTwice(`--${token.name}`))
    }
    if (token.value === '') throw wrong((told) => told.needsValue(`--${token.name}`))
  }
  if (values['remove-traces']) {
    if (args.length > 1) throw wrong((told) => told.standsAlone('--remove-traces'))
    return { kind: 'remove-traces' }
  }
  const handoutAlone =
    values.handout !== undefined &&
    OUTPUT_NAMES.every((name) => name === 'handout' || values[name] === undefined)
  if (values.queue !== undefined && values.each === undefined)
    throw new Wrong(({ queue }) => queue.QUEUE_NEEDS_EACH)
  if (values.worker) checkWorker(values)
  if (values.each !== undefined) checkEach(values, positionals)
  else if (values.jsonl) throw new Wrong(({ overview }) => overview.NEEDS_EACH)
  else if (positionals.length === 0 && !handoutAlone) throw wrong((told) => told.NO_LOG_NAMED)
  if (positionals.filter((log) => log === '-').length > 1) throw wrong((told) => told.STANDARD_INPUT_ONCE)
  for (const name of FILES_ALONE) {
    if (values[name] === '-') throw wrong((told) => told.takesFile(`--${name}`))
  }
  const hasLogs = positionals.length > 0 || values.each !== undefined
  const out = values['no-pdf'] || !hasLogs ? null : (values.out ?? 'report.pdf')
  if (values['no-pdf'] && values.out !== undefined) throw wrong((told) => told.OUT_AND_NO_PDF)
  if (values.versus !== undefined && values.period === undefined) {
    throw wrong((told) => told.VERSUS_NEEDS_PERIOD)
  }
  if (values.protect && values.save === undefined) throw wrong((told) => told.PROTECT_NEEDS_SAVE)
  if (values.attach && out === null) throw wrong((told) => told.ATTACH_NEEDS_REPORT)
  if (values.attach && values['no-notes']) throw wrong((told) => told.ATTACH_HAS_NOTES)
  const unit = values.unit === undefined ? null : glucoseUnit('--unit', values.unit)
  return {
    kind: 'run',
    command: {
      logs: positionals,
      outputs: { ...outputsIn(values), out },
      protect: values.protect ?? false,
      replace: values.replace ?? false,
      attach: values.attach ?? false,
      passphraseFd: values['passphrase-fd'] === undefined ? null : descriptor(values['passphrase-fd']),
      unit,
      answers: {
        ...(values['log-unit'] !== undefined && {
          unit: oneOf('--log-unit', values['log-unit'], ['mg/dL', 'mmol/L', 'mixed'] as const),
        }),
        ...(values.dates !== undefined && { dates: oneOf('--dates', values.dates, ['ymd', 'dmy', 'mdy']) }),
        ...(values.columns !== undefined && { columns: columnList(values.columns) }),
      },
      shifts: (values.shift ?? []).map(shift),
      zone: zoneName(values.zone),
      period: values.period === undefined ? null : daySpan('--period', values.period),
      targets: values.targets === undefined ? null : asked('--targets', values.targets, parseTargets),
      goal: values.goal === undefined ? null : asked('--goal', values.goal, parseGoal),
      versus: values.versus === undefined ? null : daySpan('--versus', values.versus),
      kit: values.kit ?? null,
      diaryDays: values.diary === undefined ? null : diaryDays(values.diary),
      each: values.each ?? null,
      jsonl: values.jsonl ?? false,
      queue: values.queue ?? null,
      worker: values.worker ?? false,
      printed: {
        onePage: values['one-page'] ?? false,
        wholeMethod: values.method ?? false,
        withoutNotes: values['no-notes'] ?? false,
      },
      paper: values.paper === undefined ? null : oneOf('--paper', values.paper, ['A4', 'Letter'] as const),
      label: values.label ?? null,
      quiet: values.quiet ?? false,
    },
  }
}

/** What cannot be said together with a folder: what names one file, and what is of one log. */
const NOT_WITH_EACH = [
  'json',
  'readings',
  'fhir',
  'handout',
  'save',
  'attach',
  'protect',
  'passphrase-fd',
  'no-pdf',
] as const

function checkEach(values: Values, logs: readonly string[]): void {
  const said = NOT_WITH_EACH.find((name) => values[name] !== undefined)
  if (said !== undefined) throw new Wrong(({ overview }) => overview.eachAlone(`--${said}`))
  if (logs.length > 0) throw new Wrong(({ overview }) => overview.eachAlone('LOG'))
  if (values.out === undefined) throw new Wrong(({ overview }) => overview.EACH_NEEDS_OUT)
}

/** All that a worker is told of; how reports are made is told to the computer that asks for them. */
const OF_WORKER: readonly string[] = ['each', 'out', 'queue', 'worker', 'quiet']

function checkWorker(values: Values): void {
  if (values.queue === undefined) throw new Wrong(({ queue }) => queue.WORKER_NEEDS_QUEUE)
  const said = Object.keys(values).find((name) => !OF_WORKER.includes(name))
  if (said !== undefined) throw new Wrong(({ queue }) => queue.notOfWorker(`--${said}`))
}

function outputsIn(values: Values): Record<OutputName, string | null> {
  const paths = OUTPUT_NAMES.map((name) => [name, values[name] ?? null] as const)
  return Object.fromEntries(paths) as Record<OutputName, string | null>
}

function glucoseUnit(option: string, text: string): GlucoseUnit {
  return oneOf(option, text, ['mg/dL', 'mmol/L'])
}

function oneOf<T extends string>(option: string, text: string, choices: readonly T[]): T {
  const found = choices.find((choice) => choice.toLowerCase() === text.toLowerCase())
  if (found === undefined) throw wrong((told) => told.takesOneOf(option, choices, text))
  return found
}

function columnList(text: string): string {
  const named = parseNamedColumns(text)
  if ('unreadable' in named) {
    const why = { key: 'unreadable-columns', part: named.unreadable } as const
    throw new Wrong(({ commandLine, importMessages }) =>
      commandLine.wrongColumns(importMessages.refusalText(why, [], 'terminal')),
    )
  }
  return text
}

function shift(text: string): Shift {
  const parsed = parseShift(text)
  if (parsed === null) throw wrong((told) => told.wrongShift(text))
  return parsed
}

function zoneName(zone: string | undefined): string | null {
  if (zone === undefined) return null
  if (!isZone(zone)) throw wrong((told) => told.wrongZone(zone))
  return zone
}

function descriptor(text: string): number {
  if (!/^\d{1,4}$/.test(text)) throw wrong((told) => told.wrongDescriptor(text))
  return Number(text)
}

function diaryDays(text: string): number {
  if (text === 'none') return 0
  if (text === 'all') return Infinity
  if (!/^[1-9]\d{0,4}$/.test(text)) throw wrong((told) => told.wrongDiary(text))
  return Number(text)
}

function asked<T extends TargetRequest>(
  option: RangeOption,
  text: string,
  parse: (text: string) => T | { readonly fault: RangeFault },
): T {
  const read = parse(text)
  if (typeof read === 'object' && 'fault' in read) {
    const { fault } = read
    throw new Wrong(({ targets }) => targets.wrongRangeMessage(option, text, fault))
  }
  return read
}

function daySpan(option: string, text: string): DaySpan {
  const [first, last, ...rest] = text.split('..')
  const from = parseIsoDay(first)
  const to = parseIsoDay(last ?? '')
  if (from === null || to === null || rest.length > 0) {
    throw wrong((told) => told.takesTwoDates(option))
  }
  if (from > to) throw wrong((told) => told.datesRunBackwards(option, first, last))
  return { from, to }
}
