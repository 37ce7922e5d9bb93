/** A reading with its note; '' where notes are not printed. */
export interface Noted {
  readonly moment: string
  readonly value: string
  readonly note: string
}

/** '3 April, 07:10: 52 ‘no symptoms’; 4 April, 08:00: 61; and 3 more', of `n` in all. */
export function notedText(listed: readonly Noted[], n: number): string {
  const each = listed.map(
    ({ moment, value, note }) => `${moment}: ${value}${note === '' ? '' : ` ‘${note}’`}`,
  )
  const more = n - listed.length
  return [...each, ...(more > 0 ? [`and ${more} more`] : [])].join('; ')
}
