/** What is said of a visit file that is damaged or unknown. Each names the line and what to do. */
export const VISIT_FILE = {
  notAVisit: 'The file is no visit file of this program. Choose a file that it saved, or a log.',
  newer:
    'The file was saved by a newer version of this program, which this one cannot read. Install the newer version; the file stays as it is.',
  nothingSound: 'Nothing in the file is sound any more. Open the previous version that was kept beside it.',
} as const

export function damagedPart(line: number, part: string | null): string {
  const what = part === null ? 'A part' : (PARTS[part] ?? 'A part')
  return `Line ${line}: ${what} is damaged and was left out.${part === 'log' ? ' Add the log’s own file again.' : ''}`
}

const PARTS: Readonly<Record<string, string>> = {
  log: 'a log',
  typed: 'a reading typed by hand',
  decision: 'a decision on a reading',
  kit: 'the measuring kit',
  settings: 'the settings',
}

export function unknownKeys(line: number, keys: readonly string[]): string {
  return `Line ${line}: this version does not know ${keys.map((key) => `‘${key}’`).join(', ')}; saving will not keep it.`
}

export const CUT_OFF =
  'The file ends too early: what stood after its last line is lost. Look for the previous version that was kept beside it.'
export const PART_MISSING =
  'A part of the file is missing. Look for the previous version that was kept beside it.'
export const SETTINGS_MISSING = 'The settings are missing; the usual ones are taken.'
