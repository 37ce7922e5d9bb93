const UTC = /(?<![\p{L}\d])(?:utc|gmt|zulu)(?!\p{L}|\s?[+\-\u2212]\s?\d)/iu

/** Whether a text names universal time and no offset from it: 'Time (UTC)', 'All times are GMT'. */
export function saysUtc(text: string): boolean {
  return UTC.test(text)
}

/** Whether a cell of a column of zones is universal time. */
export function isUtc(cell: string): boolean {
  return /^(?:utc|gmt|z|zulu|etc\/utc|utc\s?[+\-\u00b1]\s?0(?:0?:?00)?)$/i.test(cell.trim())
}
