import type { Words } from '../../src-core/wording/words'

// The options of the command line, each once: what is parsed, what --help lists and which files may clash come from here.

/** What an option writes, where it names an output: a file, or standard output too for '-'. */
type Writes = 'file' | 'file-or-standard-output'

interface Option {
  /** Under which heading --help lists it; null where it stands apart. What is said of it stands in the catalogue. */
  readonly group: keyof Words['commandOptions']['OPTION_GROUPS'] | null
  /** Takes no value. */
  readonly isSwitch?: true
  /** Whether it may stand several times. */
  readonly multiple?: true
  readonly writes?: Writes
}

export const OPTIONS = {
  out: { group: 'output', writes: 'file' },
  json: { group: 'output', writes: 'file-or-standard-output' },
  readings: { group: 'output', writes: 'file' },
  fhir: { group: 'output', writes: 'file' },
  attach: { group: 'output', isSwitch: true },
  handout: { group: 'output', writes: 'file' },
  save: { group: 'output', writes: 'file' },
  protect: { group: 'output', isSwitch: true },
  'passphrase-fd': { group: 'output' },
  'no-pdf': { group: 'output', isSwitch: true },
  replace: { group: 'output', isSwitch: true },
  quiet: { group: 'output', isSwitch: true },
  'log-unit': { group: 'reading' },
  dates: { group: 'reading' },
  columns: { group: 'reading' },
  shift: { group: 'reading', multiple: true },
  zone: { group: 'reading' },
  unit: { group: 'report' },
  period: { group: 'report' },
  targets: { group: 'report' },
  goal: { group: 'report' },
  kit: { group: 'report' },
  versus: { group: 'report' },
  diary: { group: 'report' },
  'one-page': { group: 'report', isSwitch: true },
  method: { group: 'report', isSwitch: true },
  'no-notes': { group: 'report', isSwitch: true },
  each: { group: 'report' },
  jsonl: { group: 'report', isSwitch: true },
  queue: { group: 'report' },
  worker: { group: 'report', isSwitch: true },
  paper: { group: 'report' },
  label: { group: 'report' },
  'remove-traces': { group: 'report', isSwitch: true },
  help: { group: null, isSwitch: true },
  version: { group: null, isSwitch: true },
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
    : { type: Options[N] extends { isSwitch: true } ? 'boolean' : 'string' }
}
export const PARSE_OPTIONS = Object.fromEntries(
  NAMES.map((name) => {
    const { isSwitch, multiple } = optionOf(name)
    return [name, { type: isSwitch ? 'boolean' : 'string', ...(multiple && { multiple }) }]
  }),
) as ParseOptions

/** Where what is said of an option begins. */
const ABOUT_COLUMN = 26

/** Those that --help lists under a heading. */
type ListedName = keyof Words['commandOptions']['OPTION_WORDS']

/** The lines of --help that list the options. */
export function optionLines({ OPTION_GROUPS, OPTION_WORDS }: Words['commandOptions']): readonly string[] {
  const listed = NAMES.filter((name): name is ListedName => optionOf(name).group !== null)
  const groups = [...new Set(listed.map((name) => OPTIONS[name].group))]
  return groups.flatMap((group) => [
    OPTION_GROUPS[group],
    ...listed
      .filter((name) => OPTIONS[name].group === group)
      .flatMap((name) => linesOf(name, OPTION_WORDS[name])),
  ])
}

function linesOf(
  name: ListedName,
  { value, about }: { readonly value: string; readonly about: string },
): readonly string[] {
  const [first, ...rest] = about.split('\n')
  const head = `  --${name}${value === '' ? '' : ` ${value}`}`
  return [`${head.padEnd(ABOUT_COLUMN - 1)} ${first}`, ...rest.map((line) => ' '.repeat(ABOUT_COLUMN) + line)]
}
