import type { HighsBeyond } from '../../analysis/highsBeyond'
import { count } from './numbers'
import { type Phrase, strong } from '../phrases'

/** What to do about HI: the person's own plan decides. */
export const HI_ADVICE =
  'Follow your plan for highs, test for ketones if the plan says so, and contact the care team.'

/** Beside the moment of a HI that is doubtful. */
export const DOUBTFUL_HI = 'doubtful, test again'

/** '24 readings HI, above the meter’s range, on 20 days; the latest 28 May, 22:10.', with the advice. */
export function highsHeadline({ n, days, doubtful }: HighsBeyond, latest: string): readonly Phrase[] {
  const when =
    n === 1
      ? `${latest}${doubtful.length === 0 ? '' : ` (${DOUBTFUL_HI})`}`
      : `on ${count(days, 'day')}, the latest ${latest}${doubtful.length === 0 ? '' : `; ${doubtful.length} of them doubtful`}`
  return [strong(`${count(n, 'reading')} HI`), `, above the meter’s range: ${when}. ${HI_ADVICE}`]
}

/** Above the list of the latest of more HI than are told one by one; null where all are. */
export function latestHighsSentence(told: number, n: number): string | null {
  return told < n ? `The latest ${told} of ${n}:` : null
}
