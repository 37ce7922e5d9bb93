import { parseArgs } from 'node:util'
import {
  parseGoal,
  parseTargets,
  type RangeRequest,
  type TargetRequest,
} from '../../src-core/analysis/targets'
import { parseNamedColumns } from '../../src-core/log/namedColumns'
import type { LogAnswers } from '../../src-core/log/logSource'
import type { DaySpan } from '../../src-core/log/readings'
import { parseShift, type Shift } from '../../src-core/log/shifts'
import type { GlucoseUnit } from '../../src-core/units/glucose'
import { isZone } from '../../src-core/units/timeZone'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { messageText, unreadableColumnsMessage } from '../../src-core/wording/importMessages'

/** The lines that --help prints. */
export const HELP: readonly string[] = `Usage: npm run report -- LOG [LOG ...] [options]

Reads glucose logs (CSV) and writes a report for an appointment. LOG is a CSV file, a visit
saved before, or - for standard input.

Output
  --out FILE.pdf          the report (default report.pdf)
  --json FILE             the numbers as JSON (- for standard output)
  --readings FILE.csv     every reading with its doubt
  --handout FILE.pdf      two sheets to hand out: technique, a fair trial (also without a LOG)
  --save FILE             the visit: logs, decisions and settings in one file, a LOG next time
  --protect               save it enciphered; the passphrase is asked for
  --passphrase-fd N       read the passphrase from this file descriptor instead
  --no-pdf                leave the report out
  --replace               write over a visit that is not opened, or a file of another program
Reading
  --log-unit UNIT         unit of a log that does not say: mg/dL or mmol/L; mixed: each by its size
  --dates ORDER           ymd, dmy or mdy: order of the date in a log that does not say
  --columns LIST          which column is what, by header or number: 'time=2,glucose=Wert,note=5';
                          a kind of entry may name the rows that count: 'kind=3:48|57'
  --shift FROM..TO=+12:00 days with a wrong clock, and what to add; may stand several times
  --zone ZONE             zone for times given as instants (default: the computer's own)
Report
  --unit UNIT             mg/dL or mmol/L: unit to print in (default: the first log's)
  --period FROM..TO       days covered, both included: 2026-03-02..2026-05-30
  --targets RANGE         target range in the printed unit: LOW..HIGH, or pregnancy, older-adult
                          or frail (default 70..180 mg/dL = 3.9..10.0 mmol/L)
  --goal LOW..HIGH        the person's own goal before meals (default: the target's published one)
  --kit FILE.json         strips, control solution, medicines, laboratory A1C, questions, as JSON
  --versus FROM..TO       a second period to set beside it (needs --period)
  --diary DAYS|all|none   the diary, one row a day: the latest DAYS days (default 28)
  --paper A4|Letter       (default A4)
  --label TEXT            what stands at the head of the report
  --remove-traces         alone: removes unsaved changes, list of recent visits and program log
  --help, --version

Exit status: 0 done; 2 the command line is wrong; 3 a log was refused or needs an answer;
4 an output could not be written, none is in place; 1 a fault of the program.

Figures are for discussion with the care team, not for dosing decisions.`.split('\n')

/** What the command line asks for. */
export interface Command {
  readonly logs: readonly string[]
  /** Null where the report is left out. */
  readonly out: string | null
  readonly json: string | null
  readonly readings: string | null
  /** Where the visit is saved. */
  readonly save: string | null
  /** Whether it is enciphered. */
  readonly protect: boolean
  /** Whether visits that were not opened, and files that are not this program's, may be written over. */
  readonly replace: boolean
  readonly passphraseFd: number | null
  /** Where the sheets to hand out go. */
  readonly handout: string | null
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
  /** Null where nothing is asked. */
  readonly paper: 'A4' | 'Letter' | null
  readonly label: string | null
}

export type ParsedCommand =
  | { readonly kind: 'run'; readonly command: Command }
  | { readonly kind: 'help' }
  | { readonly kind: 'version' }
  | { readonly kind: 'remove-traces' }
  | { readonly kind: 'wrong'; readonly message: string }

/** A fault of the command line, in words for the person who typed it. */
class Wrong extends Error {}

/** Reads the arguments after the program's name. */
export function parseCommand(args: readonly string[]): ParsedCommand {
  try {
    return parsed(args)
  } catch (error) {
    if (error instanceof Wrong) return { kind: 'wrong', message: error.message }
    throw error
  }
}

const OPTIONS = {
  out: { type: 'string' },
  json: { type: 'string' },
  readings: { type: 'string' },
  handout: { type: 'string' },
  save: { type: 'string' },
  protect: { type: 'boolean' },
  replace: { type: 'boolean' },
  'passphrase-fd': { type: 'string' },
  'no-pdf': { type: 'boolean' },
  unit: { type: 'string' },
  'log-unit': { type: 'string' },
  dates: { type: 'string' },
  columns: { type: 'string' },
  shift: { type: 'string', multiple: true },
  zone: { type: 'string' },
  period: { type: 'string' },
  targets: { type: 'string' },
  goal: { type: 'string' },
  kit: { type: 'string' },
  versus: { type: 'string' },
  diary: { type: 'string' },
  paper: { type: 'string' },
  label: { type: 'string' },
  help: { type: 'boolean' },
  version: { type: 'boolean' },
  'remove-traces': { type: 'boolean' },
} as const

type Values = ReturnType<typeof parseArgs<{ options: typeof OPTIONS }>>['values']

/** What the argument reader would refuse in words of its own. */
function checkOption(token: {
  readonly name: string
  readonly rawName: string
  readonly value?: string | undefined
  readonly inlineValue?: boolean | undefined
}): void {
  const { name, rawName, value, inlineValue } = token
  const option = Object.hasOwn(OPTIONS, name) ? OPTIONS[name as keyof typeof OPTIONS] : null
  if (option === null || rawName !== `--${name}`) throw new Wrong(`There is no option ${rawName}.`)
  if (option.type === 'boolean') {
    if (value !== undefined) throw new Wrong(`${rawName} takes no value.`)
  } else if (value === undefined || (!inlineValue && /^-./.test(value))) {
    throw new Wrong(`${rawName} needs a value. Write one that begins with a dash as ${rawName}=VALUE.`)
  }
}

function parsed(args: readonly string[]): ParsedCommand {
  const { positionals, tokens, ...parsedArgs } = parseArgs({
    args: [...args],
    allowPositionals: true,
    strict: false,
    tokens: true,
    options: OPTIONS,
  })
  for (const token of tokens) if (token.kind === 'option') checkOption(token)
  // As they are declared, now that each was looked at.
  const values = parsedArgs.values as Values
  if (values.help) return { kind: 'help' }
  if (values.version) return { kind: 'version' }
  for (const token of tokens) {
    if (token.kind !== 'option') continue
    if (
      token.name !== 'shift' &&
      tokens.some((other) => other !== token && other.kind === 'option' && other.name === token.name)
    ) {
      throw new Wrong(`--${token.name} stands twice; give it once.`)
    }
    if (token.value === '') throw new Wrong(`--${token.name} needs a value.`)
  }
  if (values['remove-traces']) {
    if (args.length > 1) throw new Wrong('--remove-traces stands alone.')
    return { kind: 'remove-traces' }
  }
  const handoutAlone =
    values.handout !== undefined &&
    [values.out, values.json, values.readings, values.save].every((path) => path === undefined)
  if (positionals.length === 0 && !handoutAlone)
    throw new Wrong('Name the log to read: npm run report -- LOG.csv')
  if (positionals.filter((log) => log === '-').length > 1)
    throw new Wrong('Standard input (-) can be read once.')
  for (const name of ['out', 'readings', 'handout', 'save'] as const) {
    if (values[name] === '-') throw new Wrong(`--${name} takes the name of a file; only --json may be -.`)
  }
  const out = values['no-pdf'] || positionals.length === 0 ? null : (values.out ?? 'report.pdf')
  if (values['no-pdf'] && values.out !== undefined)
    throw new Wrong('--out and --no-pdf contradict each other.')
  if (values.versus !== undefined && values.period === undefined) {
    throw new Wrong('--versus sets a second period beside the first: give the first with --period FROM..TO.')
  }
  if (values.protect && values.save === undefined) throw new Wrong('--protect needs --save FILE.')
  const unit = values.unit === undefined ? null : glucoseUnit('--unit', values.unit)
  return {
    kind: 'run',
    command: {
      logs: positionals,
      out,
      json: values.json ?? null,
      readings: values.readings ?? null,
      handout: values.handout ?? null,
      save: values.save ?? null,
      protect: values.protect ?? false,
      replace: values.replace ?? false,
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
      targets: values.targets === undefined ? null : asked(parseTargets(values.targets)),
      goal: values.goal === undefined ? null : asked(parseGoal(values.goal)),
      versus: values.versus === undefined ? null : daySpan('--versus', values.versus),
      kit: values.kit ?? null,
      diaryDays: values.diary === undefined ? null : diaryDays(values.diary),
      paper: values.paper === undefined ? null : oneOf('--paper', values.paper, ['A4', 'Letter'] as const),
      label: values.label ?? null,
    },
  }
}

function glucoseUnit(option: string, text: string): GlucoseUnit {
  return oneOf(option, text, ['mg/dL', 'mmol/L'])
}

function oneOf<T extends string>(option: string, text: string, choices: readonly T[]): T {
  const found = choices.find((choice) => choice.toLowerCase() === text.toLowerCase())
  if (found === undefined) throw new Wrong(`${option} takes ${choices.join(' or ')}, not '${text}'.`)
  return found
}

function columnList(text: string): string {
  const named = parseNamedColumns(text)
  if ('unreadable' in named) {
    throw new Wrong(`--columns: ${messageText(unreadableColumnsMessage(named.unreadable), 'terminal')}`)
  }
  return text
}

function shift(text: string): Shift {
  const parsed = parseShift(text)
  if (parsed === null) {
    throw new Wrong(
      `--shift takes days and what to add to their times, not '${text}': --shift 2026-03-29..2026-04-02=+12:00 (or -01:00).`,
    )
  }
  return parsed
}

function zoneName(zone: string | undefined): string | null {
  if (zone === undefined) return null
  if (!isZone(zone))
    throw new Wrong(`--zone: no zone is named '${zone}'. Write it like Europe/Berlin or UTC.`)
  return zone
}

function descriptor(text: string): number {
  if (!/^\d{1,4}$/.test(text))
    throw new Wrong(`--passphrase-fd takes the number of a file descriptor, not '${text}'.`)
  return Number(text)
}

function diaryDays(text: string): number {
  if (text === 'none') return 0
  if (text === 'all') return Infinity
  if (!/^[1-9]\d{0,4}$/.test(text)) {
    throw new Wrong(`--diary takes a number of days, all or none, not '${text}'.`)
  }
  return Number(text)
}

function asked<T extends TargetRequest>(read: T | { readonly wrong: string }): T {
  if (typeof read === 'object' && 'wrong' in read) throw new Wrong(read.wrong)
  return read
}

function daySpan(option: string, text: string): DaySpan {
  const [first, last, ...rest] = text.split('..')
  const from = parseIsoDay(first)
  const to = parseIsoDay(last ?? '')
  if (from === null || to === null || rest.length > 0) {
    throw new Wrong(`${option} takes two dates, FROM..TO: ${option} 2026-03-02..2026-05-30.`)
  }
  if (from > to) throw new Wrong(`${option}: ${first} lies after ${last}. Write the earlier date first.`)
  return { from, to }
}
