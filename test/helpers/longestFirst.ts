import { BaseSequencer, type TestSpecification } from 'vitest/node'

/**
 * Files that take longest, longest first: begun last, one of them would leave the other cores idle. A file that is not
 * named here follows, as Vitest orders it.
 */
const LONGEST = [
  'journeys/pagesOut',
  'journeys/visitInWindow',
  'journeys/windowForEveryone',
  'journeys/windowJourneys',
  'journeys/slips',
  'journeys/',
  'command/each',
  'window/savedVisits',
  'command/cli',
  'command/attach',
  'pdf/pdf',
  'command/corpus',
  'visit/visitReport',
  'report/pageDocument',
  'log/oracles',
  'findings/findings',
  'log/mutatedLogs',
]

/** The order of the files: with the longest first, and those that share what they import one after the other, at the end. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).toSorted((one, other) => placeOf(one) - placeOf(other))
  }
}

function placeOf({ moduleId, project }: TestSpecification): number {
  const place = LONGEST.findIndex((part) => moduleId.includes(`/${part}`))
  return (place < 0 ? LONGEST.length : place) + (project.config.isolate ? 0 : 2 * LONGEST.length)
}
