import type { FaultDirection } from '../../technique/notes/classes'
import type { DoubtReason } from '../../technique/technique'
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
  /** Whether `nextTimeSentence`, which stands above all readings, says that already. */
  readonly isUsual: boolean
}

/** A doubtful reading beside the repeat that contradicts it. */
export interface Contradiction {
  readonly mgDl: number
  readonly otherMgDl: number
  /** As printed, LO and HI included. */
  readonly value: string
  readonly other: string
  /** Positive where the other test came later. */
  readonly minutes: number
  /** Whether this reading is below 70 mg/dL. */
  readonly low: boolean
  /** Whether a low of the same set came before this reading. */
  readonly afterLow: boolean
}

/** Blood that a test strip takes, microlitres (0.3 to 1.0 in meters of today). */
const DROP_MICROLITRES = 0.5
/** More water than this in a drop is hardly ever a damp finger. */
const DAMP_FINGER_PERCENT = 25

const USUAL_NEXT_TIME =
  'if you feel or read low, treat it first by your own plan. Otherwise wash, rinse, dry, new strip, test again.'
type NextTime = Pick<Advice, 'nextTime' | 'isUsual'>
const USUAL: NextTime = { nextTime: USUAL_NEXT_TIME, isUsual: true }
const LOW: NextTime = {
  nextTime: 'treat first by your own plan; then wash, rinse, dry, new strip, test again.',
  isUsual: true,
}
const instead = (nextTime: string): NextTime => ({ nextTime, isUsual: false })

const SUGAR_EXAMPLE_MG_DL = 107

/** Stands once above the readings; what it says is not said again of each. */
export function nextTimeSentence(unit: GlucoseUnit): string {
  // 1 mg/dL is 0.01 microgram in a microlitre.
  const micrograms = (SUGAR_EXAMPLE_MG_DL / 100) * DROP_MICROLITRES
  return (
    `Next time ${USUAL_NEXT_TIME} ${glucoseText(SUGAR_EXAMPLE_MG_DL, unit)} ${unit} too much in a ${fixed(DROP_MICROLITRES, 1)} µL drop is ` +
    `${fixed(micrograms, 1)} millionths of a gram of sugar: you cannot see it. Soap and water take it off; an alcohol wipe alone ` +
    'does not.'
  )
}

/**
 * Advice on a doubtful reading, by what weighs most: its own note, then strips and meter, then direction and size beside
 * the test that contradicts it, then the value itself. Null where nothing fits.
 */
export function adviceOn(
  reasons: readonly DoubtReason[],
  reading: { readonly value: string; readonly mgDl: number; readonly low: boolean },
  contradiction: Contradiction | null,
): Advice | null {
  const byTests = contradiction !== null ? matchedAdvice(contradiction) : directionAdvice(reasons, reading)
  const note = reasons.find((reason) => reason.code === 'note-tells-of-technique')
  const equipment = reasons.map(equipmentAdvice).find((advice) => advice !== null)
  if (note !== undefined && fitsDirection(note.evidence.direction, reasons, reading.mgDl)) {
    const fault = `${FAULT_WORDS[note.evidence.class]}, as its note says (${DIRECTION_WORDS[note.evidence.direction]})`
    if (reading.low) {
      return {
        fitsBest: `${fault}, or a real low: the ${reading.value} is counted as a low whatever the doubt.`,
        alsoPossible: 'a strip not filled, cold.',
        ...LOW,
      }
    }
    return {
      fitsBest: `${fault}.`,
      alsoPossible: byTests === null ? 'chance.' : byTests.fitsBest,
      ...nextTimeOf(byTests),
    }
  }
  if (equipment === undefined) return byTests
  if (reading.low) return { ...lowAlone(reading.value), alsoPossible: `${equipment.fitsBest}` }
  return byTests === null ? equipment : { ...equipment, alsoPossible: byTests.fitsBest }
}

function nextTimeOf(advice: Advice | null): NextTime {
  return advice === null ? USUAL : { nextTime: advice.nextTime, isUsual: advice.isUsual }
}

const DIRECTION_WORDS = {
  'too-high': 'reads too high',
  'too-low': 'reads too low',
  either: 'either way',
} as const

/** A note of a wet finger explains no value that is too high beside the other tests. */
function fitsDirection(direction: FaultDirection, reasons: readonly DoubtReason[], mgDl: number): boolean {
  const side = sideOf(reasons, mgDl)
  return direction === 'either' || side === null || direction === side
}

/** Which way the reading lies from the tests that speak against it; null where none does. */
function sideOf(reasons: readonly DoubtReason[], mgDl: number): 'too-high' | 'too-low' | null {
  for (const { evidence } of reasons) {
    if ('otherMgDl' in evidence) return mgDl > evidence.otherMgDl ? 'too-high' : 'too-low'
    if ('expectedHighMgDl' in evidence) return mgDl > evidence.expectedHighMgDl ? 'too-high' : 'too-low'
  }
  return null
}

function lowAlone(value: string): Advice {
  return {
    fitsBest: `a real low. The ${value} is counted as a low whatever the doubt.`,
    alsoPossible: 'a strip not filled, a wet or cold finger.',
    ...LOW,
  }
}

/** What strips, meter and control solution explain; null of a reason that speaks of neither. */
function equipmentAdvice(reason: DoubtReason): Advice | null {
  switch (reason.code) {
    case 'outside-working-temperature': {
      const { celsius, lowest } = reason.evidence
      const side =
        celsius < lowest ? 'cold: some meters then read too low' : 'hot: some meters then read too high'
      return {
        fitsBest: `meter or strips too ${side}.`,
        alsoPossible: 'nothing wrong: many meters do not mind.',
        ...instead('let meter, strips and hands come to room temperature for twenty minutes, then test.'),
      }
    }
    case 'looks-like-control-solution':
      return {
        fitsBest: 'a test of control solution, not of blood.',
        alsoPossible: 'a reading that has its value by chance.',
        ...instead('tag control tests in the meter, so that they never enter the averages.'),
      }
    case 'failed-control':
      return {
        fitsBest: `strips or meter: the control test ${DIRECTION_WORDS[reason.evidence.side]}. Days on end from one vial point to the strips.`,
        alsoPossible: 'a control solution out of date, or shaken too little.',
        ...instead(
          'test the control again with a new drop. Outside its range twice: do not rely on this vial or meter, use the ' +
            'other one, ask the pharmacy or maker. Note the day on which a vial is opened: the doubt then keeps to its days.',
        ),
      }
    case 'strip-out-of-date':
      return {
        fitsBest: 'strips past their date: which way they err cannot be foretold.',
        alsoPossible: 'strips that are still good: only a control test tells.',
        ...instead('a new vial in date, lid shut, the date of opening written on it.'),
      }
    case 'contradicted-by-repeat':
    case 'faster-than-glucose-changes':
    case 'unlike-neighbours':
    case 'note-tells-of-technique':
    case 'looks-like-other-unit':
    case 'at-measuring-limit':
      return null
  }
}

/** Advice by direction where no repeat tells the size, or by the value itself. */
function directionAdvice(
  reasons: readonly DoubtReason[],
  { value, mgDl, low }: { readonly value: string; readonly mgDl: number; readonly low: boolean },
): Advice | null {
  if (low) return lowAlone(value)
  if (reasons.some(({ code }) => code === 'looks-like-other-unit')) {
    return {
      fitsBest: 'a value of the other unit among the others.',
      alsoPossible: 'a slip in typing.',
      ...instead('look at the unit on the meter’s display and keep to one unit in the log.'),
    }
  }
  const side = sideOf(reasons, mgDl)
  if (side === null) return null
  return {
    fitsBest:
      side === 'too-high'
        ? 'food, sugar or cream on the skin (too high).'
        : 'a strip not filled, a wet or alcohol-wet finger, or cold (too low).',
    alsoPossible: 'an honest swing between tests that lie apart; squeezing (either way, usually about 10 %).',
    ...(value === 'HI' ? instead('repeat with washed, dried hands and follow your plan for highs.') : USUAL),
  }
}

/**
 * Advice by direction and size. Sugar on the skin: Hirose et al., Diabetes Care 2011;34:596-597; squeezing and
 * unwashed hands: Hortensius et al., Diabetes Care 2011;34:556-560; under-filled strips: Pfützner et al.,
 * J Diabetes Sci Technol 2013;7:1522-1529; water: plain dilution.
 */
export function matchedAdvice(contradiction: Contradiction): Advice {
  if (contradiction.low) return lowAdvice(contradiction)
  if (contradiction.mgDl < contradiction.otherMgDl) return tooLowAdvice(contradiction)
  return contradiction.afterLow ? afterLowAdvice(contradiction) : tooHighAdvice(contradiction)
}

function lowAdvice(contradiction: Contradiction): Advice {
  const { value } = contradiction
  return {
    fitsBest: `${lowAndOther(contradiction)}. The ${value} is counted as a low whatever the doubt.`,
    alsoPossible: 'a strip not filled, a wet or cold finger.',
    ...LOW,
  }
}

function lowAndOther({ mgDl, otherMgDl, other, minutes }: Contradiction): string {
  if (otherMgDl < mgDl) return `a real low; the ${other} may be nearer to the truth`
  return minutes > 0
    ? `a real low; sugar eaten or touched in between may have made the ${other} the wrong one`
    : `a real low after a ${other} that read too high`
}

function afterLowAdvice({ minutes }: Contradiction): Advice {
  // The test that contradicts most may have come later; the low came before all the same.
  const when = minutes < 0 ? `${durationText(-minutes)} before` : 'before it'
  return {
    fitsBest:
      `sugar on the finger from treating the low ${when}, if tablets, juice or fruit were just in hand. ` +
      'A recheck that reads too high hides a low that goes on.',
    alsoPossible: 'a part of it an honest rise after sugar that was taken.',
    ...instead('treat by your own plan, wash and dry your hands, then recheck.'),
  }
}

function tooHighAdvice({ minutes }: Contradiction): Advice {
  const when =
    minutes > 0 ? `gone ${durationText(minutes)} later` : `not there ${durationText(-minutes)} before`
  return {
    fitsBest: `food, sugar or cream on the skin (too high, ${when}).`,
    alsoPossible: 'the other test too low; squeezing (either way, usually about 10 %).',
    ...USUAL,
  }
}

function tooLowAdvice({ mgDl, otherMgDl, value, other }: Contradiction): Advice {
  const waterPercent = 100 * (1 - mgDl / otherMgDl)
  const atLeast = other === 'HI' ? 'at least ' : ''
  const dilution = `From ${other} to ${value} takes ${atLeast}${percentText(waterPercent)} % water in the drop`
  return {
    fitsBest:
      waterPercent > DAMP_FINGER_PERCENT
        ? `a strip not filled (too low). ${dilution}; a damp finger seldom does that.`
        : `a wet or alcohol-wet finger, a strip not filled, or cold (too low). ${dilution}.`,
    alsoPossible: 'the other test too high; cold; squeezing (either way, usually about 10 %).',
    ...USUAL,
  }
}
