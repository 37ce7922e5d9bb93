import type { GlucoseUnit } from '../units/glucose'
import { fixed } from '../units/rounding'
import { durationText } from './dates'
import { glucoseText, percentText } from './numbers'

/** What best explains a doubtful reading, what else may, and what to do the next time. */
export interface Advice {
  readonly fitsBest: string
  readonly alsoPossible: string
  readonly nextTime: string
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

const TREAT_FIRST = 'if you feel or read low, treat it first by your own plan.'
const REPEAT = 'Otherwise wash, rinse, dry, new strip, test again.'

/**
 * Advice by direction and size. Sugar on the skin: Hirose et al., Diabetes Care 2011;34:596-597; squeezing and
 * unwashed hands: Hortensius et al., Diabetes Care 2011;34:556-560; under-filled strips: Pfützner et al.,
 * J Diabetes Sci Technol 2013;7:1522-1529; water: plain dilution.
 */
export function matchedAdvice(contradiction: Contradiction, unit: GlucoseUnit): Advice {
  if (contradiction.low) return lowAdvice(contradiction)
  if (contradiction.mgDl < contradiction.otherMgDl) return tooLowAdvice(contradiction)
  return contradiction.afterLow ? afterLowAdvice(contradiction) : tooHighAdvice(contradiction, unit)
}

function lowAdvice(contradiction: Contradiction): Advice {
  const { value } = contradiction
  return {
    fitsBest: `${lowAndOther(contradiction)}. The ${value} is counted as a low whatever the doubt.`,
    alsoPossible: 'a strip not filled, a wet or cold finger.',
    nextTime: 'treat first by your own plan; then wash, rinse, dry, new strip, test again.',
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
      `sugar on the finger from treating the low ${when}: tablets, juice or fruit were just in hand. ` +
      'A recheck that reads too high hides a low that goes on.',
    alsoPossible: 'an honest rise after the sugar that was taken.',
    nextTime: 'treat by your own plan, wash and dry your hands, then recheck.',
  }
}

function tooHighAdvice(contradiction: Contradiction, unit: GlucoseUnit): Advice {
  const { mgDl, otherMgDl, value, other, minutes } = contradiction
  const excess = mgDl - otherMgDl
  const beyondLimit = value === 'HI' || other === 'LO'
  // 1 mg/dL is 0.01 microgram in a microlitre.
  const micrograms = (excess / 100) * DROP_MICROLITRES
  const when =
    minutes > 0 ? `gone ${durationText(minutes)} later` : `not there ${durationText(-minutes)} before`
  return {
    fitsBest:
      `food, sugar or cream on the skin (too high, ${when}). ${beyondLimit ? 'At least ' : ''}` +
      `${glucoseText(excess, unit)} ${unit} too much in a 0.5 µL drop is ${fixed(micrograms, 1)} millionths of a ` +
      'gram of sugar: you cannot see it. Soap and water; an alcohol wipe alone does not take sugar off.',
    alsoPossible: 'the other test too low; squeezing (either way, usually about 10 %).',
    nextTime: `${TREAT_FIRST} ${REPEAT}`,
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
    nextTime: `${TREAT_FIRST} ${REPEAT}`,
  }
}
