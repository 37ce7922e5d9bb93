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
  'command/queue',
  'command/each',
  'command/cli',
  'command/attach',
  'pdf/pdf',
  'command/corpus',
  'window/savedVisits',
  'report/flow',
  'report/firstPage',
  'reference/',
  'visit/visitReport',
  'report/pageDocument',
  'log/oracles',
  'findings/findings',
  'charts/dayPicture',
  'log/mutatedLogs',
]

/** Those that wait for other programs before those that need a core of their own throughout. */
const PROJECTS = ['slow shared', 'slow program', 'program', 'slow core', 'core']

/** The order of the files: by project, so that those of one share what they import, and the longest of each first. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).toSorted((one, other) => placeOf(one) - placeOf(other))
  }
}

function placeOf({ moduleId, project }: TestSpecification): number {
  const place = LONGEST.findIndex((part) => moduleId.includes(`/${part}`))
  return PROJECTS.indexOf(project.name) * 2 * LONGEST.length + (place < 0 ? LONGEST.length : place)
}
