import { percent } from './processes'

// How doubts hold: of the readings that are given one, how many are off. Apart for readings that nobody repeated, for first
// members of a repeat set and for later ones, and in bands of doubt.

const KINDS = ['unrepeated', 'first of a set', 'later of a set'] as const
const EDGES = [0, 0.1, 0.2, 0.4, 0.6, 0.8, 1] as const

/** A reading as judged, and the truth. */
export interface Doubted {
  readonly kind: (typeof KINDS)[number]
  readonly doubt: number
  readonly off: boolean
  readonly low: boolean
}

/** Where each test of a log stands, by the minutes between it and those beside it. */
export function kindsOf(
  log: readonly { readonly minutes: number }[],
  windowMinutes: number,
): Doubted['kind'][] {
  const inSet = (i: number) => i > 0 && i < log.length && log[i].minutes - log[i - 1].minutes <= windowMinutes
  return log.map((_, i) => (inSet(i) ? 'later of a set' : inSet(i + 1) ? 'first of a set' : 'unrepeated'))
}

/**
 * Lines of a table: of each kind, and of its readings that are no lows in each band of doubt, the mean doubt, the share that
 * is off, and how many there are. Lows, whose doubt has a prior of its own, are one line.
 */
export function calibrationTable(all: readonly Doubted[]): string[] {
  return KINDS.flatMap((kind) => {
    const ofKind = all.filter((one) => one.kind === kind)
    const [lows, others] = [ofKind.filter(({ low }) => low), ofKind.filter(({ low }) => !low)]
    const bands = EDGES.slice(1).map((to, i): [string, Doubted[]] => [
      `  ${EDGES[i]} to ${to}`,
      others.filter(({ doubt }) => doubt >= EDGES[i] && (doubt < to || to === 1)),
    ])
    const rows: [string, Doubted[]][] = [[kind, ofKind], ...bands, ['  lows', lows]]
    return rows.map(([name, some]) => `  ${name.padEnd(16)} ${told(some)}`)
  })
}

function told(some: readonly Doubted[]): string {
  if (some.length === 0) return 'none'
  const doubts = some.reduce((sum, { doubt }) => sum + doubt, 0)
  const off = some.filter((one) => one.off).length
  return `mean doubt ${percent(doubts, some.length)}, off ${percent(off, some.length)} of ${some.length}`
}
