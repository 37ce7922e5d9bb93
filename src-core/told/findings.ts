import type { Facts, Finding } from '../findings/finding'

/** Findings that stand under one another; the lows beside them are told in full once. */
export function findingsTold(
  findings: readonly Facts[],
): readonly { readonly facts: Facts; readonly lowsToldAbove: boolean }[] {
  const first = findings.findIndex(tellsLows)
  return findings.map((facts, i) => ({ facts, lowsToldAbove: tellsLows(facts) && i > first }))
}

/** Whether a finding might ask for more treatment, so that it tells the lows beside it. */
function tellsLows({ code, evidence }: Facts): boolean {
  return (
    code === 'highs-gather' ||
    code === 'fasting-above-goal' ||
    code === 'highs-at-end-of-vial' ||
    (code === 'overnight-change' && evidence.medianMgDl > 0) ||
    (code === 'trend' && evidence.perWeekMgDl > 0)
  )
}

/** Findings that count lows. */
const OF_LOWS: ReadonlySet<Facts['code']> = new Set(['lows-gather', 'lows-in-runs', 'lows-with-activity'])

/** Which findings rest on doubtful readings, by their numbers from 1. */
export interface FindingsDoubt {
  readonly n: number
  readonly aboutThem: readonly number[]
  readonly disappear: readonly number[]
  readonly change: readonly number[]
  /** The doubtful lows, which count all the same, where a finding counts lows. */
  readonly lows: Marks | null
  /** Whether any has in brackets how well it is known. */
  readonly brackets: boolean
}

interface Marks {
  readonly marked: number
  readonly bracketed: number
}

export function doubtOfFindings(findings: readonly Finding[], doubtfulLows: Marks): FindingsDoubt {
  const numbers = (fate: Finding['withoutDoubtful']) =>
    findings.flatMap(({ withoutDoubtful }, i) => (withoutDoubtful === fate ? [i + 1] : []))
  return {
    n: findings.length,
    aboutThem: numbers('about-them'),
    disappear: numbers('disappears'),
    change: numbers('changes'),
    lows: findings.some(({ code }) => OF_LOWS.has(code)) ? doubtfulLows : null,
    brackets: findings.some(({ code }) => code !== 'lows-after-contradicted-highs'),
  }
}
