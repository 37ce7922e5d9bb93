import { listed } from './numbers'

// What is said of files that could not be written.

/** Why a file that stands at an output's place is left as it is, and what to do. */
export const SPARED = {
  visit:
    'a visit that was not opened stands there, and what was decided in it would be lost. Open it first, or choose another name.',
  other:
    'a file stands there that is not, or no longer, as this program wrote it. Choose another name, or move it away.',
} as const

/** For the command line, behind one of these. */
export const OR_REPLACE = 'To lose what stands there, say --replace.'

/** Which files of one run stand in their places after one of them failed. */
export function whatIsInPlace(inPlace: readonly string[], missing: readonly string[]): string {
  if (inPlace.length === 0) return 'No file of this run is in place; what stood there before is as it was.'
  return `In place already: ${listed(inPlace)}. Not in place: ${listed(missing)}.`
}
