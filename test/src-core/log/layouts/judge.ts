import { parse } from 'csv-parse/sync'
import { openVisit } from '../../../../src-core/analysis/openVisit'
import { readingsCsv } from '../../../../src-core/exchange/readingsCsv'
import { logOf } from '../../../helpers/logs'
import type { LayoutCase } from './cases'
import { NOW_MS, type Truth } from './truth'

/**
 * right: exactly the truth. wrong: a reading that is none. lost: a reading is missing and its line is not among the rows
 * set aside. told: readings are missing, each with its line set aside. asked: a question that an option answers.
 * refused: no reading, and no question. fault: the program itself failed.
 */
export const VERDICTS = ['right', 'told', 'asked', 'refused', 'wrong', 'lost', 'fault'] as const
export type Verdict = (typeof VERDICTS)[number]

export interface Judgement {
  readonly verdict: Verdict
  /** What differs, in a line. */
  readonly why: string
}

/** Reads a case as the program would, and holds what it accepts against the truth. */
export function judge(layout: LayoutCase): Judgement {
  try {
    return held(layout)
  } catch (error) {
    return { verdict: 'fault', why: error instanceof Error ? error.message : String(error) }
  }
}

function held({ text, truths, seed }: LayoutCase): Judgement {
  const visit = openVisit([logOf(text, `${seed}.csv`)], {}, { nowMs: NOW_MS, zone: 'Europe/Berlin' })
  if (visit.kind !== 'analysed') {
    const refusals = visit.kind === 'stopped' ? visit.refusals : []
    const asked = refusals.some(({ question }) => question !== null)
    return { verdict: asked ? 'asked' : 'refused', why: refusals.map(({ code }) => code).join(', ') }
  }
  const { analysis } = visit
  const rows = parse<Record<string, string>>([...readingsCsv(analysis)].join(''), { columns: true })
  const left = new Map<string, { line: number; text: string }[]>()
  for (const truth of truths) {
    const key = keyOf(truth)
    left.set(key, [...(left.get(key) ?? []), { line: truth.line, text: key }])
  }
  const extra: { line: number; text: string }[] = []
  for (const row of rows) {
    const key = keyOfRow(row)
    // Two meters may have one time and value: the truth of the same line is meant.
    const truthsLeft = left.get(key) ?? []
    const sameLine = truthsLeft.findIndex(({ line }) => line === Number(row.line))
    if (truthsLeft.splice(Math.max(0, sameLine), 1).length === 0) extra.push({ line: Number(row.line), text: key })
  }
  const missing = [...left.values()].flat().sort((a, b) => a.line - b.line)
  const first = missing.at(0)
  const missed = first && `${missing.length} missing, first line ${first.line}: ${first.text}`
  if (extra.length > 0) {
    const at = extra.reduce((before, each) => (each.line < before.line ? each : before))
    return { verdict: 'wrong', why: [`${extra.length} wrong, first line ${at.line} read as ${at.text}`, missed].filter(Boolean).join('; ') }
  }
  if (missed === undefined) return { verdict: 'right', why: '' }
  const setAside = new Map<number, string[]>()
  for (const { line, reason } of analysis.sources[0].setAside) {
    setAside.set(line, [...(setAside.get(line) ?? []), reason])
  }
  const unsaid = missing.filter(({ line }) => setAside.get(line)?.pop() === undefined)
  const reasons = [...new Set(analysis.sources[0].setAside.map(({ reason }) => reason))].join(', ')
  return unsaid.length > 0
    ? { verdict: 'lost', why: `${unsaid.length} unsaid of ${missed}` }
    : { verdict: 'told', why: `${missed} (set aside: ${reasons})` }
} // prettier-ignore

function keyOf({ at, value, limit, unit }: Truth): string {
  // A marker without its limit stands for 600 or 20 mg/dL in any log (the contract of the JSON).
  return limit === '' ? `${at} ${value} ${unit}` : `${at} ${limit}`
}

function keyOfRow(row: Record<string, string>): string {
  const at = row.at.slice(0, 16)
  return row.limit === '' ? `${at} ${Number(row.logged_value)} ${row.logged_unit}` : `${at} ${row.limit}`
}
