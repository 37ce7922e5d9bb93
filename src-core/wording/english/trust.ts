import type { Counted } from '../../model/counted'
import type { Doubts, MisfitTold, RepeatsTold } from '../../told/doubts'
import { NOT_PROVEN_RIGHT } from './doubt'
import { count, percentText } from './numbers'
import { type Phrase, strong } from '../phrases'
import { SENSOR_NOT_JUDGED } from './sensor'
import { marksSentences, stretchesTexts } from './stretches'

export const TRUST_TITLE = 'How far the readings can be trusted'

/** How many are doubtful, whether the estimate of doubt fits, and how well repeats agree: a paragraph. */
export function trustSentences(doubts: Doubts): readonly (readonly Phrase[])[] {
  if (doubts.found === 'not-judged') return [[SENSOR_NOT_JUDGED]]
  return [
    doubtfulSentence(doubts),
    ...(doubts.misfit === null ? [] : [[misfitSentence(doubts.misfit)]]),
    repeatSentence(doubts.repeats),
  ]
}

/** '4 readings are doubtful (‘?’). The others are not proven right: ...' */
export function doubtfulSentence({
  found,
  doubtful: { length: doubtful },
  of,
  manyMarkers,
  bracketed,
}: Pick<Doubts, 'found' | 'of' | 'manyMarkers' | 'bracketed'> & {
  readonly doubtful: { readonly length: number }
}): readonly Phrase[] {
  switch (found) {
    case 'not-judged':
      return [SENSOR_NOT_JUDGED]
    case 'none-beside-markers': {
      const others = of.n - of.belowRange - of.aboveRange
      return [
        strong(markersNotJudged(of)),
        others === 0
          ? ''
          : ` Of the other ${others} none was found doubtful, which does not prove them right.`,
        ' The best check is a second test at once: washed and dried hands, a new strip.',
      ]
    }
    case 'none':
      return [
        strong('No reading was found doubtful.'),
        ' That does not prove them right: a single wrong reading that nobody repeated is seldom found ' +
          '(about one in three at best, in simulated logs). The best check is a second test at once: washed and ' +
          'dried hands, a new strip.',
      ]
    case 'some': {
      const marks =
        bracketed === 0 ? ' (‘?’).' : `. ${marksSentences(doubtful - bracketed, bracketed).join(' ')}`
      return [
        strong(`${count(doubtful, 'reading')} ${doubtful === 1 ? 'is' : 'are'} doubtful`),
        `${marks} ${NOT_PROVEN_RIGHT}${manyMarkers ? ` ${markersNotJudged(of)}` : ''}`,
      ]
    }
  }
}

/** The same in a line of the terminal. */
export function trustLine({ found, doubtful: { length: doubtful }, of, misfit, repeats }: Doubts): string {
  if (found === 'not-judged') return SENSOR_NOT_JUDGED
  const { sets, agreeing, wholeLogbook } = repeats
  const doubts = {
    some: `${doubtful === 1 ? '1 reading is doubtful' : `${doubtful} readings are doubtful`}; the others are not proven right.`,
    'none-beside-markers': markersNotJudged(of),
    none: 'No reading was found doubtful, which does not prove them right.',
  }[found]
  const agree =
    sets === 0
      ? 'No reading was repeated within 10 minutes.'
      : `${agreeing} of ${count(sets, 'set')} of repeat readings${wholeLogbook ? ' in the whole logbook' : ''} ${sets === 1 ? 'agrees' : 'agree'}.`
  return [doubts, ...(misfit === null ? [] : [misfitSentence(misfit)]), agree].join(' ')
}

/** That the usual estimate of doubt fits the log badly, which makes so many readings not doubtful. */
export function misfitSentence({ wide, quick, notDoubtful }: MisfitTold): string {
  const what = [
    ...(wide ? ['values far from the middle are commoner'] : []),
    ...(quick ? ['readings an hour or two apart differ more'] : []),
  ]
  return (
    `The usual estimate of doubt fits this log badly: ${what.join(', and ')} than it expects. That is taken to be usual for this ` +
    `person, so ${count(notDoubtful, 'reading')} ${notDoubtful === 1 ? 'is' : 'are'} not called doubtful.`
  )
}

/** HI and LO are no numbers: whatever is found of a log of them is little. */
export function markersNotJudged(of: Counted): string {
  const markers = of.belowRange + of.aboveRange
  const kinds = [...(of.aboveRange > 0 ? ['HI'] : []), ...(of.belowRange > 0 ? ['LO'] : [])]
  return (
    `${markers} of ${count(of.n, 'reading')} ${markers === 1 ? 'is' : 'are'} ${kinds.join(' or ')} and ` +
    'without a number: how far off they may be cannot be judged.'
  )
}

/** Why there is no second column, and what one fault of strips or meter makes doubtful. */
export function tooManyDoubtfulSentence({
  doubtful,
  of,
  stretches,
}: Pick<Doubts, 'of' | 'stretches'> & { readonly doubtful: { readonly length: number } }): string {
  const cause =
    stretches.length > 0
      ? `${stretches.length === 1 ? 'A cause is known' : 'Causes are known'}: ${stretchesTexts(stretches).join(' ')}`
      : 'Look for one cause behind them: a vial of strips, a meter or a habit.'
  return (
    `${doubtful.length} of ${of.n} readings are doubtful, more than 10 %. What is left without them would not be a ` +
    `fair picture, so no second column is printed. ${cause}`
  )
}

/** Why the two columns would be the same. */
export const NOTHING_CHANGES = 'So nothing is left out and nothing averaged.'

/** The rows of the table with both columns of figures. */
export const READINGS_TITLE = 'readings'
export const alwaysCounted = (column: string) => `${column}, always counted`
export const allOfThem = (n: number) => `all ${n}`
export const withoutDoubtful = (n: number) => `without doubtful, repeats merged: ${n}`

/** 'Repeat tests: 24 of 31 sets agree. Among these two tests typically differ by 6 %, ...' */
export function repeatSentence({
  sets,
  agreeing,
  wholeLogbook,
  differences,
  unsurprising,
}: RepeatsTold): readonly Phrase[] {
  if (sets === 0) {
    return ['No test was repeated within ten minutes: how well repeat tests agree is not known.']
  }
  const where = wholeLogbook ? ' (in the whole logbook)' : ''
  const agree = sets === 1 ? (agreeing === 1 ? 'the one set agrees' : 'the one set does not agree') : ''
  const first = agree || `${agreeing} of ${sets} sets agree`
  const spread =
    differences === null
      ? ''
      : ` In those, two tests typically differ by ${percentText(differences.typicalPercent)} %, ` +
        `19 of 20 pairs by less than ${percentText(differences.usualLimitPercent)} %.`
  // Repeats follow surprises: what the others show stands beside.
  const others =
    unsurprising === null
      ? ''
      : ` Where the first value was no surprise (${unsurprising.sets} sets) they differ by ${percentText(unsurprising.typicalPercent)} %: most repeats follow a ` +
        'surprise, which makes the other figure too large.'
  return [strong('Repeat tests: '), `${first}${where}.${spread}${others}`]
}
