// Days as fields of the browser write them, and as the visit counts them.

const MS_PER_DAY = 86_400_000

/** Days since 1970, as the visit counts them; null where they run backwards or are none. */
export function dayNumbers({
  from,
  to,
}: {
  readonly from: string
  readonly to: string
}): { readonly from: number; readonly to: number } | null {
  const [first, last] = [from, to].map((day) => Date.parse(`${day}T00:00Z`) / MS_PER_DAY)
  return first <= last ? { from: first, to: last } : null
}

/** Whether both days are given and the last lies before the first. */
export function runsBackwards({ from, to }: { readonly from: string; readonly to: string }): boolean {
  return from !== '' && to !== '' && Date.parse(`${to}T00:00Z`) < Date.parse(`${from}T00:00Z`)
}

/** '2026-03-02'. */
export function isoOf(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10)
}
