// The options of the command line, each once: what is parsed, what --help prints and which files may clash come from here.

/** What an option writes, where it names an output: a file, or standard output too for '-'. */
type Writes = 'file' | 'file-or-standard-output'

interface Option {
  readonly group: 'Output' | 'Reading' | 'Report'
  /** What stands for its value in --help; null for a switch. */
  readonly value: string | null
  /** What --help says of it; a new line where it is to be broken. */
  readonly about: string
  /** Whether it may stand several times. */
  readonly multiple?: true
  readonly writes?: Writes
}

export const OPTIONS = {
  out: { group: 'Output', value: 'FILE.pdf', about: 'the report (default report.pdf)', writes: 'file' },
  json: {
    group: 'Output',
    value: 'FILE',
    about: 'the numbers as JSON (- for standard output)',
    writes: 'file-or-standard-output',
  },
  readings: { group: 'Output', value: 'FILE.csv', about: 'every reading with its doubt', writes: 'file' },
  handout: {
    group: 'Output',
    value: 'FILE.pdf',
    about: 'two sheets to hand out: technique, a fair trial (also without a LOG)',
    writes: 'file',
  },
  save: {
    group: 'Output',
    value: 'FILE',
    about: 'the visit: logs, decisions and settings in one file, a LOG next time',
    writes: 'file',
  },
  protect: { group: 'Output', value: null, about: 'save it enciphered; the passphrase is asked for' },
  'passphrase-fd': {
    group: 'Output',
    value: 'N',
    about: 'read the passphrase from this file descriptor instead',
  },
  'no-pdf': { group: 'Output', value: null, about: 'leave the report out' },
  replace: {
    group: 'Output',
    value: null,
    about: 'write over a visit that is not opened, or a file of another program',
  },
  'log-unit': {
    group: 'Reading',
    value: 'UNIT',
    about: 'unit of a log that does not say: mg/dL or mmol/L; mixed: each by its size',
  },
  dates: {
    group: 'Reading',
    value: 'ORDER',
    about: 'ymd, dmy or mdy: order of the date in a log that does not say',
  },
  columns: {
    group: 'Reading',
    value: 'LIST',
    about:
      "which column is what, by header or number: 'time=2,glucose=Wert,note=5';\na kind of entry may name the rows that count: 'kind=3:48|57'",
  },
  shift: {
    group: 'Reading',
    value: 'FROM..TO=+12:00',
    about: 'days with a wrong clock, and what to add; may stand several times',
    multiple: true,
  },
  zone: {
    group: 'Reading',
    value: 'ZONE',
    about: "zone for times given as instants (default: the computer's own)",
  },
  unit: {
    group: 'Report',
    value: 'UNIT',
    about: "mg/dL or mmol/L: unit to print in (default: the first log's)",
  },
  period: {
    group: 'Report',
    value: 'FROM..TO',
    about: 'days covered, both included: 2026-03-02..2026-05-30',
  },
  targets: {
    group: 'Report',
    value: 'RANGE',
    about:
      'target range in the printed unit: LOW..HIGH, or pregnancy, older-adult\nor frail (default 70..180 mg/dL = 3.9..10.0 mmol/L)',
  },
  goal: {
    group: 'Report',
    value: 'LOW..HIGH',
    about: "the person's own goal before meals (default: the target's published one)",
  },
  kit: {
    group: 'Report',
    value: 'FILE.json',
    about: 'strips, control solution, medicines, laboratory A1C, questions, as JSON',
  },
  versus: {
    group: 'Report',
    value: 'FROM..TO',
    about: 'a second period to set beside it (needs --period)',
  },
  diary: {
    group: 'Report',
    value: 'DAYS|all|none',
    about: 'the diary, one row a day: the latest DAYS days (default 28)',
  },
  paper: { group: 'Report', value: 'A4|Letter', about: '(default A4)' },
  label: { group: 'Report', value: 'TEXT', about: 'what stands at the head of the report' },
  'remove-traces': {
    group: 'Report',
    value: null,
    about: 'alone: removes unsaved changes, list of recent visits and program log',
  },
  help: { group: 'Report', value: null, about: '' },
  version: { group: 'Report', value: null, about: '' },
} as const satisfies Readonly<Record<string, Option>>

type Options = typeof OPTIONS
export type OptionName = keyof Options

/** The options that write something. */
export type OutputName = { [N in OptionName]: Options[N] extends { writes: Writes } ? N : never }[OptionName]

const NAMES = Object.keys(OPTIONS) as readonly OptionName[]
const optionOf = (name: OptionName): Option => OPTIONS[name]

export const OUTPUT_NAMES = NAMES.filter((name): name is OutputName => optionOf(name).writes !== undefined)
/** Those that take the name of a file and no '-'. */
export const FILES_ALONE = OUTPUT_NAMES.filter((name) => optionOf(name).writes === 'file')

/** The options in the form that Node's own reader of arguments takes. */
type ParseOptions = {
  [N in OptionName]: Options[N] extends { multiple: true }
    ? { type: 'string'; multiple: true }
    : { type: Options[N]['value'] extends null ? 'boolean' : 'string' }
}
export const PARSE_OPTIONS = Object.fromEntries(
  NAMES.map((name) => {
    const { value, multiple } = optionOf(name)
    return [name, { type: value === null ? 'boolean' : 'string', ...(multiple && { multiple }) }]
  }),
) as ParseOptions

/** Where what is said of an option begins. */
const ABOUT_COLUMN = 26

/** The lines of --help that list the options. */
export function optionLines(): readonly string[] {
  const groups = [...new Set(NAMES.map((name) => optionOf(name).group))]
  return groups.flatMap((group) => {
    const told = NAMES.filter((name) => optionOf(name).group === group && optionOf(name).about !== '')
    return [group, ...told.flatMap(linesOf)]
  })
}

function linesOf(name: OptionName): readonly string[] {
  const { value, about } = optionOf(name)
  const [first, ...rest] = about.split('\n')
  const head = `  --${name}${value === null ? '' : ` ${value}`}`
  return [`${head.padEnd(ABOUT_COLUMN - 1)} ${first}`, ...rest.map((line) => ' '.repeat(ABOUT_COLUMN) + line)]
}
