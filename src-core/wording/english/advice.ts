import { SUGAR_ON_SKIN } from '../../reference/sugarOnSkin'
import type { Explanation, NextTime, ToldAdvice } from '../../told/advice'
import type { GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { durationText } from './dates'
import { glucoseText, percentText } from './numbers'
import { FAULT_WORDS } from './reasons'

/** What best explains a doubtful reading, what else may, and what to do the next time. */
export interface Advice {
  readonly fitsBest: string
  readonly alsoPossible: string
  readonly nextTime: string
}

export const ADVICE_LEADS = {
  fitsBest: 'Fits best: ',
  alsoPossible: 'Also possible: ',
  nextTime: ' Next time: ',
} as const

/** Stands once above the readings; what it says is not said again of each. */
export function nextTimeSentence(unit: GlucoseUnit): string {
  const { tooMuchMgDl, dropMicrolitres, micrograms } = SUGAR_ON_SKIN
  return (
    `Next time ${NEXT_TIME.usual} ${glucoseText(tooMuchMgDl, unit)} ${unit} too much in a ${fixed(dropMicrolitres, 1)} µL drop is ` +
    `${fixed(micrograms, 1)} millionths of a gram of sugar: you cannot see it. Soap and water take it off; an alcohol wipe alone ` +
    'does not.'
  )
}

/** Advice in words; `value` and `other` as printed: the reading, and the one that contradicts it, if any. */
export function adviceText({ fits, also, next }: ToldAdvice, value: string, other: string): Advice {
  return {
    fitsBest: fitsText(fits, value, other),
    alsoPossible: also === null ? ALSO[fits.code] : fitsText(also, value, other),
    nextTime: NEXT_TIME[next],
  }
}

const NEXT_TIME: Readonly<Record<NextTime, string>> = {
  usual:
    'if you feel or read low, treat it first by your own plan. Otherwise wash, rinse, dry, new strip, test again.',
  low: 'treat first by your own plan; then wash, rinse, dry, new strip, test again.',
  'room-temperature': 'let meter, strips and hands come to room temperature for twenty minutes, then test.',
  'tag-control': 'tag control tests in the meter, so that they never enter the averages.',
  'test-control':
    'test the control again with a new drop. Outside its range twice: do not rely on this vial or meter, use the ' +
    'other one, ask the pharmacy or maker. Note the day on which a vial is opened: the doubt then keeps to its days.',
  'new-vial': 'a new vial in date, lid shut, the date of opening written on it.',
  recheck: 'treat by your own plan, wash and dry your hands, then recheck.',
  'look-at-unit': 'look at the unit on the meter’s display and keep to one unit in the log.',
  'plan-for-highs': 'repeat with washed, dried hands and follow your plan for highs.',
}

const DIRECTION_WORDS = {
  'too-high': 'reads too high',
  'too-low': 'reads too low',
  either: 'either way',
} as const

const SWING = 'a true change between tests made some time apart; squeezing (about ±10 %).'
const BESIDE_LOW = 'a strip not filled, a wet or cold finger.'
const OTHER_TOO_LOW = 'the other test too low; squeezing (about ±10 %).'
const OTHER_TOO_HIGH = 'the other test too high; cold; squeezing (about ±10 %).'

/** What usually stands beside an explanation. */
const ALSO: Readonly<Record<Explanation['code'], string>> = {
  note: 'chance.',
  'note-or-low': 'a strip not filled, cold.',
  'real-low': BESIDE_LOW,
  'low-beside-lower': BESIDE_LOW,
  'low-before-other': BESIDE_LOW,
  'low-after-other': BESIDE_LOW,
  'cold-meter': 'nothing wrong: many meters do not mind.',
  'hot-meter': 'nothing wrong: many meters do not mind.',
  'control-solution': 'a reading that has its value by chance.',
  'failed-control': 'a control solution out of date, or shaken too little.',
  'old-strip': 'strips that are still good: only a control test tells.',
  'other-unit': 'a slip in typing.',
  'too-high': SWING,
  'too-low': SWING,
  'sugar-from-low': 'a part of it an honest rise after sugar that was taken.',
  'sugar-gone-later': OTHER_TOO_LOW,
  'sugar-not-there-before': OTHER_TOO_LOW,
  'wet-finger': OTHER_TOO_HIGH,
  'strip-not-filled': OTHER_TOO_HIGH,
}

function fitsText(fits: Explanation, value: string, other: string): string {
  const stillLow = `The ${value} is counted as a low whatever the doubt.`
  switch (fits.code) {
    case 'note':
      return `${noteText(fits)}.`
    case 'note-or-low':
      return `${noteText(fits)}, or a real low: the ${value} is counted as a low whatever the doubt.`
    case 'real-low':
      return `a real low. ${stillLow}`
    case 'low-beside-lower':
      return `a real low; the ${other} may be nearer to the truth. ${stillLow}`
    case 'low-before-other':
      return `a real low; sugar eaten or touched in between may have made the ${other} the wrong one. ${stillLow}`
    case 'low-after-other':
      return `a real low after a ${other} that read too high. ${stillLow}`
    case 'cold-meter':
      return 'meter or strips too cold: some meters then read too low.'
    case 'hot-meter':
      return 'meter or strips too hot: some meters then read too high.'
    case 'control-solution':
      return 'a test of control solution, not of blood.'
    case 'failed-control':
      return `strips or meter: the control test ${DIRECTION_WORDS[fits.side]}. Days on end from one vial point to the strips.`
    case 'old-strip':
      return 'strips past their date: which way they err cannot be foretold.'
    case 'other-unit':
      return 'a value of the other unit among the others.'
    case 'too-high':
      return 'food, sugar or cream on the skin (too high).'
    case 'too-low':
      return 'a strip not filled, a wet or alcohol-wet finger, or cold (too low).'
    case 'sugar-from-low': {
      const when = fits.minutesAfter === null ? 'before it' : `${durationText(fits.minutesAfter)} before`
      return (
        `sugar on the finger from treating the low ${when}, if tablets, juice or fruit were just in hand. ` +
        'A recheck that reads too high hides a low that goes on.'
      )
    }
    case 'sugar-gone-later':
      return `food, sugar or cream on the skin (too high, gone ${durationText(fits.minutes)} later).`
    case 'sugar-not-there-before':
      return `food, sugar or cream on the skin (too high, not there ${durationText(fits.minutes)} before).`
    case 'wet-finger':
      return `a wet or alcohol-wet finger, a strip not filled, or cold (too low). ${waterText(fits, value, other)}.`
    case 'strip-not-filled':
      return `a strip not filled (too low). ${waterText(fits, value, other)}; a damp finger seldom does that.`
  }
}

function noteText({ class: of, direction }: Extract<Explanation, { code: 'note' | 'note-or-low' }>): string {
  return `${FAULT_WORDS[of]}, as its note says (${DIRECTION_WORDS[direction]})`
}

function waterText(
  { waterPercent, atLeast }: Extract<Explanation, { code: 'wet-finger' | 'strip-not-filled' }>,
  value: string,
  other: string,
): string {
  return `From ${other} to ${value} takes ${atLeast ? 'at least ' : ''}${percentText(waterPercent)} % water in the drop`
}
