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

/** Whether values logged in whole mg/dL end in 0 or 5 more often than chance would have it. */
export function roundValues({ readings, indexes }: Look): Question | null {
  const whole = indexes.filter(
    (i) =>
      loggedUnit(readings, i) === 'mg/dL' && !isMarker(readings, i) && Number.isInteger(readings.logged[i]),
  )
  if (whole.length < FEWEST) return null
  const round = whole.filter((i) => readings.logged[i] % 5 === 0).length
  const evidence = countOf(round, whole.length)
  return {
    ps: [binomialUpperTail(round, whole.length, BY_CHANCE)],
    answer: ([clear]) =>
      clear && evidence.ci95Percent[0] >= WORTH_SAYING_PERCENT ? { code: 'round-values', evidence } : null,
  }
}
