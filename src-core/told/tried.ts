import type { Analysis } from '../analysis/analysis'

/** A condition that was changed on purpose, and what it did. */
export interface Tried {
  /** The log's own words. */
  readonly label: string
  readonly differencePercent: number
  readonly effect: boolean
  /** A smaller difference would not have been seen. */
  readonly smallestVisiblePercent: number
}

/** The changed conditions of the latest trials, at most `most`, in order of time. */
export function triedLately({ technique }: Analysis, most: number): readonly Tried[] {
  return technique.trials
    .flatMap(({ steps }) => steps)
    .filter(({ changed }) => changed)
    .slice(-most)
}

/** How many tests are part of a trial. */
export function trialTests({ technique }: Pick<Analysis, 'technique'>): number {
  return technique.trials.reduce(
    (sum, { baseline, steps }) =>
      sum + baseline.length + steps.reduce((n, { indexes }) => n + indexes.length, 0),
    0,
  )
}

/** A log of a day or two of which trials are the greater part: its figures would be figures of the trials (design choice). */
const MOST_DAYS = 2

export function isMostlyTrials({ technique, periods }: Analysis): boolean {
  const [{ daysWithReadings, asLogged }] = periods
  const tests = trialTests({ technique })
  return daysWithReadings <= MOST_DAYS && 2 * tests >= asLogged.n && tests > 0
}
