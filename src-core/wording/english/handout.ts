import { SUGAR_ON_SKIN } from '../../reference/sugarOnSkin'
import type { GlucoseUnit } from '../../units/glucose'
import { LIMITS } from '../../reference/limits'
import { glucoseText, limitText } from './numbers'

export const HANDOUT_TITLE = 'Testing with a finger-stick'
export const TRIAL_TITLE = 'A fair trial of your technique'
export const HANDOUT_PURPOSE = 'To go through with the nurse or educator. The care team decides.'

export const GONE_THROUGH = 'Gone through with ________________________ on ______________'

/** What the drawings of the steps show. */
export const DRAWINGS = {
  vial: 'A vial of strips; an arrow presses its lid shut.',
  wash: 'A hand under a tap; water runs over the fingers.',
  dry: 'A hand dries itself on a towel that hangs from a rail.',
  side: 'A finger with its nail; a lancet pricks the side of the tip.',
  drop: 'A fingertip that points down, shown three times; the drop at its end grows by itself.',
  strip: 'A strip in a meter touches the drop on a fingertip, once.',
  low: 'First a glass to drink, marked 1; then a meter with a strip, marked 2.',
  bottle: 'A small bottle; a pencil writes the date on its label.',
} as const

interface TechniquePart {
  readonly title: string
  /** Steps with a drawing. */
  readonly drawn: readonly (readonly [drawing: keyof typeof DRAWINGS, step: string])[]
  readonly others: readonly string[]
  /** Lines that the care team fills in. */
  readonly plans?: readonly string[]
}

/** Common practice of technique teaching, with published sizes where there are any. */
export function techniqueParts(unit: GlucoseUnit): readonly TechniquePart[] {
  const off = `${glucoseText(SUGAR_ON_SKIN.tooMuchMgDl, unit)} ${unit}`
  return [
    {
      title: 'Before',
      drawn: [
        ['vial', 'Strips in date, lid kept shut. Meter and strips neither hot nor cold.'],
        ['wash', 'Wash with warm water and soap; rinse. An alcohol wipe alone leaves sugar behind.'],
        ['dry', 'Dry the hands fully: water thins the drop.'],
      ],
      others: [`Sugar you cannot see counts: half a millionth of a gram in a small drop adds about ${off}.`],
    },
    {
      title: 'The test',
      drawn: [
        ['side', 'A new lancet; the side of a fingertip.'],
        ['drop', 'Warm hand, held low. Let the drop form; do not squeeze or milk.'],
        ['strip', 'Touch once, let it fill. No topping up unless the strip’s leaflet allows it.'],
      ],
      others: [
        'Use the first drop after washing and drying. If you cannot wash and your hands are not dirty, wipe off the first drop and use the second.',
      ],
    },
    {
      title: 'Afterwards',
      drawn: [['low', 'Low, or feeling low? Treat first, as your plan says; test afterwards.']],
      others: [
        'Write down what was different: food in hand, wet or cold finger, little blood, another meter, a new vial.',
        'Surprised by the value? Wash, rinse, dry, take a new strip and test again. Note both.',
      ],
      plans: [
        'My plan for a low, from the care team: _____________________',
        'My plan for highs, from the care team: _____________________',
      ],
    },
    {
      title: 'Control solution',
      drawn: [['bottle', 'Write the date on the bottle when you open it.']],
      others: [
        'Use it with a new vial or lot; after the meter was dropped; when strips were left open, hot or cold; when two washed tests disagree; when results do not fit how you feel.',
        'Mark the result as control, so that it never counts as a reading.',
        'Inside the range printed with the strips: meter and strips work today. It says nothing about your finger.',
        'Outside it twice: do not rely on this vial or meter. Use another; ask the pharmacy or the maker.',
      ],
    },
  ]
}

export const TRIAL_STEPS: readonly string[] = [
  'One question at a time: a wet finger, a squeezed finger, a second meter. The same meter and the same vial throughout, unless the meter is the question.',
  'At a quiet time: three hours after food, not after a low, not when ill. Never dose on these tests.',
  'Within 15 minutes: washed and dried; then the changed way; then washed and dried again. The last test shows how far glucose itself moved.',
  'On three days. One round cannot show a difference below about 14 %, three rounds none below about 8 % (for tests that repeat within 5 %).',
  'A smaller difference will not show. It may still be there.',
]

export const TRIAL_COLUMNS = [
  'day, time',
  'washed, dried',
  'changed (how?)',
  'washed again',
  'remarks',
] as const
export const BLANK_SHEET_TITLE = 'Three days, seven tests and the night'
export const BLANK_SHEET_HOW =
  'Before each meal, one to two hours after its start, at bedtime, once at night. Tick if the hands were washed and dried.'
export const BLANK_SHEET_COLUMNS = [
  'before breakfast',
  'after breakfast',
  'before lunch',
  'after lunch',
  'before dinner',
  'after dinner',
  'bedtime',
  'night',
] as const
export const BLANK_REMARKS = 'food, illness, anything unusual'
export const WASHED_TICK = '□ washed'
export const dayOfSheet = (day: number) => `Day ${day}`
export const DAY_AND_DATE = 'day, date'

export const GLOSSARY_TITLE = 'Words in the report'

/** The report's words for people who meet them for the first time. */
export function glossary(unit: GlucoseUnit): readonly { readonly term: string; readonly means: string }[] {
  return [
    { term: 'Reading', means: 'one glucose value that a meter showed.' },
    { term: 'Repeat test', means: 'a second test soon after the first, to see how well the two agree.' },
    {
      term: 'Low',
      means: `a reading below ${limitText(LIMITS.low, unit)} ${unit}. It counts even when it is in doubt.`,
    },
    { term: 'High', means: `a reading above ${limitText(LIMITS.high, unit)} ${unit}.` },
    {
      term: 'Mean',
      means: 'all readings added up, then divided by how many there are. Lows and highs do not show in it.',
    },
    { term: 'SD', means: 'standard deviation, how far readings usually are from the mean.' },
    { term: 'CV', means: 'coefficient of variation, the SD in percent of the mean.' },
    {
      term: 'Estimated A1C',
      means: 'what a laboratory A1C might be, worked out from the mean. It does not replace the blood test.',
    },
  ]
}
