import { METER_STANDARD } from '../../reference/meter'
import type { BothSides, NewThing } from '../../told/beforeAfter'
import type { GlucoseUnit } from '../../units/glucose'
import { count, glucoseText, listed, percentText } from './numbers'

// What was counted before a day on which something was new, and from it on.

export const TITLE = 'Before and since'
export const NO_CAUSE =
  'Counted over the whole logbook. Counts show no cause: more than one thing may have changed.'

/** What was new: 'technique was taught (washing)'. */
export type NewInWords =
  Exclude<NewThing, { readonly code: 'meter' }> | { readonly code: 'meter'; readonly name: string }

/** 'Before 15 April 7 of 19 repeat sets disagree, since then 1 of 12. That day technique was taught (washing).' */
export function setsText(day: string, { before, since }: BothSides, news: readonly NewInWords[]): string {
  return (
    `Before ${day} ${before.count} of ${count(before.n, 'repeat set')} ${before.count === 1 ? 'disagrees' : 'disagree'}, ` +
    `since then ${since.count} of ${since.n}. ${thatDay(news)}`
  )
}

/** The same of pairs of two meters. */
export function pairsText(
  day: string,
  { before, since }: BothSides,
  news: readonly NewInWords[],
  unit: GlucoseUnit,
): string {
  const limit = `${glucoseText(METER_STANDARD.belowMgDl, unit)} ${unit} or ${percentText(100 * METER_STANDARD.share)} %`
  return (
    `Before ${day} ${before.count} of ${count(before.n, 'pair')} of two meters ${before.count === 1 ? 'differs' : 'differ'} by more ` +
    `than ${limit}, since then ${since.count} of ${since.n}. ${thatDay(news)}`
  )
}

function thatDay(news: readonly NewInWords[]): string {
  return `That day ${listed(news.map(newText))}.`
}

function newText(thing: NewInWords): string {
  switch (thing.code) {
    case 'taught':
      return `technique was taught${thing.about === null ? '' : ` (${thing.about})`}`
    case 'strips': {
      const vial = thing.vial === null ? 'a vial of strips' : `the vial ‘${thing.vial}’`
      return `${vial}${thing.lot === null ? '' : ` of lot ${thing.lot}`} was opened`
    }
    case 'meter':
      return `${thing.name} was first used`
  }
}
