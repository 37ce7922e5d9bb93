import { isMarker, loggedUnit } from '../log/readings'
import { binomialUpperTail } from '../statistics/exactTests'
import { countOf } from './finding'
import type { Look, Question } from './look'

/** Of whole numbers two in ten end in 0 or 5. */
const BY_CHANCE = 0.2
/** Fewer values tell no habit (design choice). */
const FEWEST = 30
/** Below this the rounding is too rare to matter (design choice). */
const WORTH_SAYING_PERCENT = 25

/** Whether the last digits of values, whole mg/dL or tenths of mmol/L, are 0 or 5 more often than chance would have it. */
export function roundValues({ readings, indexes }: Look): Question | null {
  const lastDigits = indexes.flatMap((i) => {
    if (isMarker(readings, i)) return []
    const steps = readings.logged[i] * (loggedUnit(readings, i) === 'mg/dL' ? 1 : 10)
    // Tenths are not exact in binary numbers; finer values were not read from a meter.
    return Math.abs(steps - Math.round(steps)) < 1e-6 ? [Math.round(steps) % 10] : []
  })
  if (lastDigits.length < FEWEST) return null
  const whole = lastDigits
  const round = whole.filter((digit) => digit % 5 === 0).length
  const evidence = countOf(round, whole.length)
  return {
    ps: [binomialUpperTail(round, whole.length, BY_CHANCE)],
    answer: ([clear]) =>
      clear && evidence.ci95Percent[0] >= WORTH_SAYING_PERCENT ? { code: 'round-values', evidence } : null,
  }
}
