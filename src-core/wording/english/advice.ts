import { RECHECK_AFTER_MINUTES } from '../../reference/afterLow'
import { SUGAR_ON_SKIN } from '../../reference/sugarOnSkin'
import type { Explanation, NextTime, SharedExplanation, ToldAdvice } from '../../told/advice'
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
  unlessSaid: 'Fits best, unless a reading says otherwise: ',
  fitsBest: 'Fits best: ',
  alsoPossible: 'Also possible: ',
  nextTime: ' Next time: ',
} as const

/** Stands once above the readings; what it says is not said again of each. */
export function nextTimeSentence(unit: GlucoseUnit): string {
  const { tooMuchMgDl, dropMicrolitres, micrograms } = SUGAR_ON_SKIN
  return (
    `Next time: ${NEXT_TIME.usual} ${fixed(micrograms, 1)} millionths of a gram of sugar in a ${fixed(dropMicrolitres, 1)} µL drop make a reading ` +
    `${glucoseText(tooMuchMgDl, unit)} ${unit} too high: you cannot see so little. Soap and water take it off; an alcohol wipe alone ` +
    'does not.'
  )
}

/** What explains several readings, told once above them. */
export function sharedAdvice(code: SharedExplanation): Pick<Advice, 'fitsBest' | 'alsoPossible'> {
  return { fitsBest: SHARED[code], alsoPossible: ALSO[code] }
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
  usual: `if you feel or read low, treat it first, as your own plan says, then wash your hands and recheck after ${RECHECK_AFTER_MINUTES} minutes. Otherwise wash, rinse and dry your hands, take a new strip and test again.`,
  low: `treat first, as your own plan says; wash, rinse and dry your hands, then recheck after ${RECHECK_AFTER_MINUTES} minutes with a new strip. Your care team’s plan comes first.`,
  'room-temperature': 'give meter, strips and hands twenty minutes to reach room temperature, then test.',
  'tag-control': 'mark control tests as such in the meter, so that they never count in the averages.',
  'test-control':
    'test the control again with a new drop. Outside its range twice: do not rely on this vial or meter; use another, ' +
    'and ask the pharmacy or the maker. Note the day you open each vial: then only its own days come into doubt.',
  'new-vial': 'use a new vial that is in date, keep its lid shut and write on it the day you opened it.',
  recheck: `treat as your own plan says, wash and dry your hands, then recheck after ${RECHECK_AFTER_MINUTES} minutes.`,
  'look-at-unit': 'check the unit on the meter’s display, and keep to one unit in the log.',
  'plan-for-highs': 'repeat with washed, dried hands and follow your plan for highs.',
}

const DIRECTION_WORDS = {
  'too-high': 'reads too high',
  'too-low': 'reads too low',
  either: 'either way',
} as const

const SWING = 'a real change in glucose between the tests; squeezing (about ±10 %).'
const BESIDE_LOW = 'too little blood on the strip, a wet or cold finger.'
const OTHER_TOO_LOW = 'the other test read too low; squeezing (about ±10 %).'
const OTHER_TOO_HIGH = 'the other test read too high; cold; squeezing (about ±10 %).'

/** What usually stands beside an explanation. */
const ALSO: Readonly<Record<Explanation['code'], string>> = {
  note: 'chance.',
  'note-or-low': 'too little blood on the strip, cold.',
  'real-low': BESIDE_LOW,
  'low-either-way': 'a real change in glucose between the tests; squeezing (about ±10 %).',
  'low-before-other': BESIDE_LOW,
  'low-after-other': BESIDE_LOW,
  'cold-meter': 'nothing wrong: the cold does not affect many meters.',
  'hot-meter': 'nothing wrong: the heat does not affect many meters.',
  'control-solution': 'a test of blood that has this value by chance.',
  'failed-control': 'control solution that was out of date, or not shaken enough.',
  'old-strip': 'strips that are still good: only a control test can tell.',
  'other-unit': 'a typing mistake.',
  'too-high': SWING,
  'too-low': SWING,
  'sugar-from-low': 'part of it a real rise after the sugar that was taken.',
  'sugar-gone-later': OTHER_TOO_LOW,
  'sugar-not-there-before': OTHER_TOO_LOW,
  'wet-finger': OTHER_TOO_HIGH,
  'strip-not-filled': OTHER_TOO_HIGH,
}

const SHARED: Readonly<Record<SharedExplanation, string>> = {
  'too-high': 'food, sugar or cream on the skin (too high).',
  'too-low': 'too little blood on the strip, a finger wet with water or alcohol, or cold (too low).',
  'sugar-gone-later': 'food, sugar or cream on the skin (too high, gone at the next test).',
  'sugar-not-there-before': 'food, sugar or cream on the skin (too high, not there at the test before).',
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
    case 'low-either-way':
      return `a low either way, because the ${other} is low too: only how low is in doubt. Both are counted as lows.`
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
      return `strips or meter: the control test ${DIRECTION_WORDS[fits.side]}. Several days in a row, all from one vial, point to the strips.`
    case 'old-strip':
      return 'strips past their date: nobody can say whether they then read high or low.'
    case 'other-unit':
      return 'a value in the other unit among the rest.'
    case 'too-high':
    case 'too-low':
      return SHARED[fits.code]
    case 'sugar-from-low': {
      const when = fits.minutesAfter === null ? 'before it' : `${durationText(fits.minutesAfter)} earlier`
      return (
        `sugar on the finger from treating the low ${when}, if you had just handled tablets, juice or fruit. ` +
        'A recheck that reads too high can hide a low that is still going on.'
      )
    }
    case 'sugar-gone-later':
      return `food, sugar or cream on the skin (too high, gone ${durationText(fits.minutes)} later).`
    case 'sugar-not-there-before':
      return `food, sugar or cream on the skin (too high, not there ${durationText(fits.minutes)} before).`
    case 'wet-finger':
      return `a finger wet with water or alcohol, too little blood on the strip, or cold (too low). ${waterText(fits, value, other)}.`
    case 'strip-not-filled':
      return `too little blood on the strip (too low). ${waterText(fits, value, other)}; a damp finger seldom does that.`
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
  return `For ${other} to read as ${value}, ${atLeast ? 'at least ' : ''}${percentText(waterPercent)} % of the drop would have to be water`
}
