/** A sentence whose numbers stay on one line with the unit behind them. */
export function unbroken(sentence: string): string {
  return sentence.replace(/(\d) (?=(?:h|min|days?)\b|%|mg\/dL|mmol\/L)/g, '$1\u00a0')
}
