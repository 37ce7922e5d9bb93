// What the command line says of itself: its help, what is wrong with the words typed, files that cannot be read.

/** All that --help prints, around the lines that list the options. */
export function helpText(optionLines: readonly string[]): string {
  return `Usage: npm run report -- LOG [LOG ...] [options]

Reads glucose logs (CSV) and writes a report for an appointment. LOG is a CSV file, a visit
saved before, a report with its readings attached, or - for standard input.

${optionLines.join('\n')}
  --help, --version

Examples
  npm run report -- log.csv --period 2026-03-02..2026-05-30
  npm run report -- meter-1.csv meter-2.csv --out visit.pdf --label 'Clinic 7, Thursday'
  npm run report -- --each exports --out reports

Exit status: 0 done; 2 wrong command; 3 log refused or unclear; 4 nothing written; 1 program fault.

Figures are for discussion with the care team, not for dosing decisions.`
}

/** Below every message of a wrong command. */
export const USAGE = 'Usage: npm run report -- LOG [LOG ...] [options]; --help lists them.'

// Each option is given as it is typed: '--json'.
export const noOption = (option: string, near: string | null) =>
  near === null
    ? `There is no option ${option}; --help lists those there are.`
    : `There is no option ${option}. Is ${near} meant?`
export const takesNoValue = (option: string) => `${option} takes no value.`
export const needsValue = (option: string) => `${option} needs a value.`
export const needsValueWithDash = (option: string) =>
  `${option} needs a value. Write one that begins with a dash as ${option}=VALUE.`
export const standsTwice = (option: string) => `${option} is given twice; give it once.`
export const standsAlone = (option: string) => `${option} is used alone, without logs or other options.`
export const takesFile = (option: string) => `${option} takes the name of a file; only --json may be -.`
export const takesOneOf = (option: string, choices: readonly string[], text: string) =>
  `${option} takes ${choices.join(' or ')}, not '${text}'.`
export const takesTwoDates = (option: string) =>
  `${option} takes two dates, FROM..TO: ${option} 2026-03-02..2026-05-30.`
export const datesRunBackwards = (option: string, first: string, last: string) =>
  `${option}: ${first} is after ${last}. Write the earlier date first.`

export const NO_LOG_NAMED = 'Name the log to read: npm run report -- LOG.csv'
export const STANDARD_INPUT_ONCE = 'Standard input (-) can be read once.'
export const OUT_AND_NO_PDF = '--out and --no-pdf contradict each other.'
export const VERSUS_NEEDS_PERIOD =
  '--versus compares a second period with the first: give the first with --period FROM..TO.'
export const PROTECT_NEEDS_SAVE = '--protect needs --save FILE.'
export const ATTACH_NEEDS_REPORT =
  '--attach needs a report to attach the readings to: leave --no-pdf out, and name a LOG.'
export const ATTACH_HAS_NOTES =
  '--attach carries all notes with the readings, and --no-notes leaves them out: say one of the two.'
export const wrongColumns = (why: string) => `--columns: ${why}`
export const wrongShift = (text: string) =>
  `--shift takes days and what to add to their times, not '${text}': --shift 2026-03-29..2026-04-02=+12:00 (or -01:00).`
export const wrongZone = (zone: string) =>
  `--zone: no zone is named '${zone}'. Write it like Europe/Berlin or UTC.`
export const wrongDescriptor = (text: string) =>
  `--passphrase-fd takes the number of a file descriptor, not '${text}'.`
export const wrongDiary = (text: string) => `--diary takes a number of days, all or none, not '${text}'.`

export const SEVERAL_VISITS = 'Several visits are named; open one, with the logs to add to it.'
export const isKitToRead = (path: string) =>
  `${path} is the kit to read; writing there would destroy it. Choose another name.`
export const isLogToRead = (path: string) =>
  `${path} is a log to read; writing there would destroy it. Choose another name.`
export const outputsClash = (path: string) =>
  `Two outputs would go to ${path}. Choose another name for one of them.`

/** In place of a name where a log came without a file. */
export const STANDARD_INPUT = 'standard input'
export const wroteText = (path: string) => `Wrote ${path}`
export const readingText = (percent: number) => `Reading: ${percent} %`

/** `errno`: the system's code of what went wrong; 'not-a-file' of a folder or a device. */
export function cannotOpenText(errno: string): string {
  if (errno === 'ENOENT') return 'there is no such file. Check the name and the folder.'
  if (errno === 'EACCES')
    return 'you do not have permission to read it. Change its permissions, or copy it where you may read it.'
  if (errno === 'not-a-file') return 'it is a folder or a device, not a file. Name the file itself.'
  return `the file cannot be opened (${errno}).`
}
export const noOutputText = (errno: string) => `Standard output could not be written (${errno}).`
export const PROGRAM_FAILED =
  'The program failed; nothing of your log was changed. Please report these lines:'

const NO_EFFECT = {
  'log-unit': 'the logs state their unit themselves',
  dates: 'the logs show the order of their dates themselves',
  shift: 'no log has a reading on these days',
} as const
export const noEffect = (option: keyof typeof NO_EFFECT) =>
  `--${option} changed nothing: ${NO_EFFECT[option]}.`
