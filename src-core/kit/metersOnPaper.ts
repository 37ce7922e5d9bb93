const LETTERS = 26
const ALREADY_LETTERED = /^meter [A-Z]+$/
const LIKE_A_LETTER = /^meter [a-z]+$/i
const PLAIN_NAME = /^\p{L}[\p{L}\p{M}\p{N} .'&/+-]{1,23}$/u
/** More digits, or fewer letters, make a serial number. */
const MOST_DIGITS = 2
const FEWEST_LETTERS = 3

/**
 * Names of meters on paper: their own where the log has a short one in words, such as 'kitchen meter', so that a
 * person knows which device is meant. Serial numbers are not shown: 'meter A', 'meter B', the next that is free, in
 * the order given.
 */
export function metersOnPaper(meters: readonly string[]): readonly string[] {
  const taken = new Set(meters.filter((meter) => ALREADY_LETTERED.test(meter)))
  const written = meters.map((meter) => meter.toLowerCase())
  const timesWritten = new Map<string, number>()
  for (const name of written) timesWritten.set(name, (timesWritten.get(name) ?? 0) + 1)
  const isAlone = (i: number) => timesWritten.get(written[i]) === 1
  let next = 0
  return meters.map((meter, i) => {
    if (taken.has(meter) || (isPlainName(meter) && isAlone(i))) return meter
    let name = meterName(next++)
    while (taken.has(name)) name = meterName(next++)
    return name
  })
}

function isPlainName(meter: string): boolean {
  const count = (kind: RegExp) => meter.match(kind)?.length ?? 0
  const isInWords = count(/\p{L}/gu) >= FEWEST_LETTERS && count(/\p{N}/gu) <= MOST_DIGITS
  return isInWords && PLAIN_NAME.test(meter) && !LIKE_A_LETTER.test(meter)
}

/** 'meter A' to 'meter Z', then 'meter AA'. */
function meterName(position: number): string {
  let letters = ''
  for (let rest = position; rest >= 0; rest = Math.floor(rest / LETTERS) - 1) {
    letters = String.fromCharCode('A'.charCodeAt(0) + (rest % LETTERS)) + letters
  }
  return `meter ${letters}`
}
