import { isMarker, loggedUnit } from '../../log/readings'
import { MG_PER_DL_IN_ONE_MMOL_PER_L } from '../../units/glucose'
import { usualRange } from './usualRange'
import type { ReasonDefinition } from './definition'

/** A value that fits this person's readings only in the other unit. mg/dL. */
export interface LooksLikeOtherUnit {
  readonly code: 'looks-like-other-unit'
  readonly evidence: {
    readonly asOtherUnitMgDl: number
    readonly usualLowMgDl: number
    readonly usualHighMgDl: number
  }
}

/** Spreads of this person's own readings (natural logarithm) within which a value fits, and beyond which it does not. */
const FITS = 2
const DOES_NOT_FIT = 4

/** A value that lies far from this person's readings, and among them once it is taken to be of the other unit. */
export const LOOKS_LIKE_OTHER_UNIT: ReasonDefinition<LooksLikeOtherUnit> = {
  code: 'looks-like-other-unit',
  standsAlone: false,
  mayFlagLow: true,
  finder: ({ readings }) => {
    const range = usualRange(readings)
    return (index) => {
      if (range === null || isMarker(readings, index)) return null
      const factor =
        loggedUnit(readings, index) === 'mg/dL'
          ? MG_PER_DL_IN_ONE_MMOL_PER_L
          : 1 / MG_PER_DL_IN_ONE_MMOL_PER_L
      const asOther = readings.mgDl[index] * factor
      const distance = (mgDl: number) => Math.abs(Math.log(mgDl) - range.centre) / range.spread
      if (distance(readings.mgDl[index]) <= DOES_NOT_FIT || distance(asOther) > FITS) return null
      return {
        code: 'looks-like-other-unit',
        evidence: {
          asOtherUnitMgDl: asOther,
          usualLowMgDl: Math.exp(range.centre - FITS * range.spread),
          usualHighMgDl: Math.exp(range.centre + FITS * range.spread),
        },
      }
    }
  },
}
