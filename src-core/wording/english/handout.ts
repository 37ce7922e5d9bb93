import { SUGAR_ON_SKIN } from '../../reference/sugarOnSkin'
import type { GlucoseUnit } from '../../units/glucose'
import { glucoseText } from './numbers'

export const HANDOUT_TITLE = 'Testing with a finger-stick'
export const TRIAL_TITLE = 'A fair trial of your technique'
export const HANDOUT_PURPOSE = 'To go through with the nurse or educator. The care team decides.'

export const GONE_THROUGH = 'Gone through with ____________________ on ____________'
export const MY_LOWS =
  'My plan for a low, written by the care team: ______________________________________________'
export const MY_HIGHS =
  'My plan for highs, written by the care team: ______________________________________________'

/** Common practice of technique teaching, with published sizes where there are any. */
export function techniqueSteps(
  unit: GlucoseUnit,
): readonly { readonly title: string; readonly steps: readonly string[] }[] {
  const off = `${glucoseText(SUGAR_ON_SKIN.tooMuchMgDl, unit)} ${unit}`
  return [
    {
      title: 'Before',
      steps: [
        'Strips are in date; the vial’s lid has been shut; meter and strips are neither hot nor cold.',
        `Hands washed with warm water and soap, rinsed and fully dried. Sugar, fruit or cream too little to see adds a lot: half a millionth of a gram of sugar in a small drop reads about ${off} too high. An alcohol wipe alone does not take sugar off.`,
        'If washing is impossible and the hands are not soiled: wipe off the first drop and use the second.',
      ],
    },
    {
      title: 'The test',
      steps: [
        'A new lancet; the side of a fingertip.',
        'Warm hand, held low. Let the drop form; do not squeeze or milk the finger.',
        'The first drop after washing and drying.',
        'Touch the strip to the drop once and let it fill. No topping up unless the strip’s leaflet allows it.',
      ],
    },
    {
      title: 'Afterwards',
      steps: [
        'Write down what was different: food in hand, wet or cold finger, little blood, another meter, a new vial.',
        'Low, or feeling low? Treat first by your own plan, test afterwards.',
        'Surprised by the value? Wash, rinse, dry, take a new strip and test again. Note both.',
      ],
    },
    {
      title: 'Control solution',
      steps: [
        'With a new vial or lot; after the meter was dropped; when strips stood open, hot or cold; when two washed tests disagree; when results do not fit how you feel.',
        'Write the date on the bottle when you open it, and mark the result as control so that it never counts as a reading.',
        'Inside the range printed with the strips: meter and strips work today. It says nothing about your finger.',
        'Outside twice: do not rely on this vial or meter. Use the other one; ask the pharmacy or the maker.',
      ],
    },
  ]
}

export const TRIAL_STEPS: readonly string[] = [
  'One question at a time: a wet finger, a squeezed finger, a second meter. The same meter and the same vial throughout, unless the meter is the question.',
  'At a quiet time: three hours after food, not after a low, not when ill. Never dose on these tests.',
  'Within 15 minutes: washed and dried; then the changed way; then washed and dried again. The last test shows how far glucose itself moved.',
  'On three days. One round cannot see a difference below about 14 %, three rounds none below about 8 % (for tests that repeat within 5 %).',
  'What is smaller than that is not shown. It may still be there.',
]

export const TRIAL_COLUMNS = [
  'day, time',
  'washed, dried',
  'changed (how?)',
  'washed again',
  'remarks',
] as const
export const BLANK_SHEET_TITLE = 'Three days, seven points and the night'
export const BLANK_SHEET_HOW =
  'Before each meal, one to two hours after its start, at bedtime, once in the night. Tick if the hands were washed and dried.'
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
export const VALUE_LINE = '_________'
export const WASHED_TICK = '□ washed'
export const BLANK_REMARKS = 'Food, movement, illness, anything unusual:'
