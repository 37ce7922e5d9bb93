// What --help says of each option: what stands for its value ('' for a switch), and what it does, broken where a line ends.

/** Headings over the options. */
export const OPTION_GROUPS = { output: 'Output', reading: 'Reading', report: 'Report' } as const

export const OPTION_WORDS = {
  out: { value: 'FILE.pdf', about: 'the report (default report.pdf)' },
  json: { value: 'FILE', about: 'the numbers as JSON (- for standard output)' },
  readings: { value: 'FILE.csv', about: 'every reading with its doubt' },
  fhir: {
    value: 'FILE.json',
    about: 'readings and summary as an HL7 FHIR R4 Bundle',
  },
  attach: {
    value: '',
    about: 'attach readings, notes and the visit to the report: a LOG next time',
  },
  handout: {
    value: 'FILE.pdf',
    about: 'two sheets to hand out: technique, a fair trial (also without a LOG)',
  },
  save: {
    value: 'FILE',
    about: 'the visit: logs, decisions and settings in one file, a LOG next time',
  },
  protect: { value: '', about: 'encrypt what is saved; asks for a passphrase' },
  'passphrase-fd': { value: 'N', about: 'read the passphrase from this file descriptor instead' },
  'no-pdf': { value: '', about: 'leave the report out' },
  replace: { value: '', about: 'overwrite a visit that was not opened, or another program’s file' },
  quiet: { value: '', about: 'say nothing but what went wrong' },
  'log-unit': {
    value: 'UNIT',
    about: 'unit of a log that does not say: mg/dL or mmol/L; mixed: each by its size',
  },
  dates: { value: 'ORDER', about: 'ymd, dmy or mdy: order of the date in a log that does not say' },
  columns: {
    value: 'LIST',
    about:
      "which column is what, by header or number: 'time=2,glucose=Wert,note=5';\na kind of entry may name the rows that count: 'kind=3:48|57'",
  },
  shift: {
    value: 'FROM..TO=+12:00',
    about: 'days with a wrong clock, and what to add; may be given several times',
  },
  zone: { value: 'ZONE', about: "time zone for times such as 07:10Z (default: the computer's own)" },
  unit: { value: 'UNIT', about: "mg/dL or mmol/L: unit to print in (default: the first log's)" },
  period: { value: 'FROM..TO', about: 'days covered, both included: 2026-03-02..2026-05-30' },
  targets: {
    value: 'RANGE',
    about: 'LOW..HIGH, pregnancy, older-adult or frail (default 70..180 mg/dL)',
  },
  goal: {
    value: 'LOW..HIGH',
    about: "the person's own goal before meals (default: the target's published one)",
  },
  kit: {
    value: 'FILE.json',
    about: 'strips, control solution, medicines, laboratory A1C, questions, as JSON',
  },
  versus: { value: 'FROM..TO', about: 'a second period to compare it with (needs --period)' },
  diary: {
    value: 'DAYS|all|none',
    about: 'the diary, one row a day: the latest DAYS days (default 28)',
  },
  'one-page': { value: '', about: 'the first page alone' },
  method: { value: '', about: 'the method in full: every figure with its definition and source' },
  'no-notes': { value: '', about: 'no note of the log on the pages and in --fhir' },
  each: {
    value: 'FOLDER',
    about: 'one report for each log of a folder, into --out FOLDER, with a list of all',
  },
  jsonl: { value: '', about: 'with --each: the list on standard output, a line of JSON for each log' },
  queue: {
    value: 'redis://HOST',
    about: 'other computers make the reports of --each, by a Redis (TLS: rediss://)',
  },
  worker: {
    value: '',
    about: 'with --each, --out and --queue: makes reports that others ask for',
  },
  paper: { value: 'A4|Letter', about: '(default A4)' },
  label: { value: 'TEXT', about: 'what is printed at the head of the report' },
  'remove-traces': {
    value: '',
    about: 'alone: removes unsaved changes, list of recent visits and program log',
  },
} as const
