import { TYPED_BY_HAND } from '../log/typedByHand'

const LETTERS = 26
const ALREADY_LETTERED = /^meter [A-Z]+$/

/**
 * Names of meters on paper, which shows no serial numbers: 'meter A', 'meter B'. A meter that has such a name
 * already keeps it, and so does what was typed by hand; the others take the next that is free, in the order given.
 */
export function meterLetters(meters: readonly string[]): readonly string[] {
  const taken = new Set(meters.filter((meter) => ALREADY_LETTERED.test(meter)))
  let next = 0
  return meters.map((meter) => {
    if (taken.has(meter) || meter === TYPED_BY_HAND) return meter
    let name = meterName(next++)
    while (taken.has(name)) name = meterName(next++)
    return name
  })
}

/** 'meter A' to 'meter Z', then 'meter AA'. */
function meterName(position: number): string {
  let letters = ''
  for (let rest = position; rest >= 0; rest = Math.floor(rest / LETTERS) - 1) {
    letters = String.fromCharCode('A'.charCodeAt(0) + (rest % LETTERS)) + letters
  }
  return `meter ${letters}`
}
