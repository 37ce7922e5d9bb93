import { type Interference, INTERFERENCES } from '../reference/interference'
import type { Kit, Medicine } from './kit'

export interface DisturbedBy {
  readonly medicine: Medicine
  readonly interference: Interference
}

/**
 * Which of the medicines and supplements are known to disturb some meters. One whose daily amount is not given is
 * taken to be enough.
 */
export function interferencesOf({ medicines = [] }: Kit): readonly DisturbedBy[] {
  return medicines.flatMap((medicine) => {
    const name = medicine.name.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
    return INTERFERENCES.filter(
      ({ names, aboveMilligramsADay }) =>
        names.test(name) && (medicine.milligramsADay ?? Infinity) > (aboveMilligramsADay ?? 0),
    ).map((interference) => ({ medicine, interference }))
  })
}
