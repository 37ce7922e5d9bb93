import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { reportContext } from '../../../src-core/report/context'
import { diary } from '../../../src-core/report/diary'
import type { Block, Inline, Table } from '../../../src-core/report/document'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

function blocksOf(analysis: Analysis, diaryDays?: number): readonly Block[] {
  return diary(
    reportContext(analysis, {
      paper: 'A4',
      label: null,
      madeAt: parseIsoDay('2026-07-01') ?? 0,
      programVersion: '1.0.0',
      ...(diaryDays !== undefined && { diaryDays }),
    }),
  )
}

const plain = (text: string | readonly Inline[]) =>
  typeof text === 'string' ? text : text.map((run) => (typeof run === 'string' ? run : run.text)).join('')

/** Texts of the table's rows, its head first. */
function rowsOf(rows: readonly FixtureReading[], days?: number, more: Partial<Analysis> = {}): string[][] {
  const blocks = blocksOf({ ...analysisOf(rows), ...more }, days)
  const found = blocks.find((block): block is Table => 'table' in block)
  return found?.table.body.map((row) => row.map(({ text }) => plain(text))) ?? []
}

const reading = (at: string, value: FixtureReading['value'], more: Partial<FixtureReading> = {}) => ({
  at,
  value,
  ...more,
})

describe('the diary', () => {
  it('has a row for each day and a column for each part of the day by the clock', () => {
    const [head, first, second] = rowsOf([reading('2026-03-02 07:00', 120), reading('2026-03-03 22:10', 131)])
    expect(head.slice(0, 4)).toEqual(['', '00–03', '03–06', '06–09'])
    expect([first[0], first[3]]).toEqual(['Mon 2 Mar', '120'])
    expect([second[0], second[8]]).toEqual(['Tue 3 Mar', '131'])
  })

  it('goes by meals where the log tells them, an untold test by its hour', () => {
    const [head, row] = rowsOf([
      reading('2026-03-02 07:00', 120, { meal: 'before breakfast' }),
      reading('2026-03-02 15:00', 150, { meal: 'after lunch' }),
      reading('2026-03-02 12:00', 99),
    ])
    const under = (title: string) => row[head.indexOf(title)]
    expect([under('before breakfast'), under('after lunch'), under('before lunch')]).toEqual([
      '120',
      '150',
      '99',
    ])
  })

  it('puts days without readings into one row', () => {
    const rows = rowsOf([reading('2026-03-02 07:00', 120), reading('2026-03-06 07:00', 120)])
    expect(rows.map(([day]) => day).slice(1)).toEqual(['Mon 2 Mar', 'Tue 3 Mar – Thu 5 Mar', 'Fri 6 Mar'])
    expect(rows[2][1]).toBe('no readings')
  })

  it('shows the latest 28 days, as many as asked for, all or none', () => {
    const rows = Array.from({ length: 40 }, (_, i) =>
      reading(`2026-${i < 20 ? '03' : '04'}-${String((i % 20) + 1).padStart(2, '0')} 07:00`, 120),
    )
    // 1 to 20 March and 1 to 20 April: the 28 days end on 20 April and begin on 24 March.
    expect(rowsOf(rows)).toHaveLength(1 + 1 + 20)
    expect(rowsOf(rows, 3)).toHaveLength(1 + 3)
    expect(rowsOf(rows, Infinity)).toHaveLength(1 + 20 + 1 + 20)
    expect(rowsOf(rows, 0)).toEqual([])
  })

  it('shows repeats once, at their consensus with the count, and the doubtful one beside it', () => {
    const [, row] = rowsOf([
      reading('2026-03-02 07:00', 118),
      reading('2026-03-02 07:02', 122),
      reading('2026-03-02 12:00', 240),
      reading('2026-03-02 12:02', 118),
      reading('2026-03-02 12:04', 122),
    ])
    expect(row[3]).toBe('120 (2)')
    expect(row[5]).toBe('120 (2) 240?')
  })

  it('shows a set that holds a low as a sequence with a solid square, never as an average', () => {
    const [, row] = rowsOf([reading('2026-03-02 07:00', 52), reading('2026-03-02 07:09', 90)])
    expect(row[3]).toBe('■ 52 → 90\u00A0(9 min)')
  })

  it('shows every low of a crowded block, the other tests up to a number', () => {
    const crowded = Array.from({ length: 12 }, (_, i) =>
      reading(`2026-03-02 06:${String(i * 5).padStart(2, '0')}`, 120),
    )
    const rows = Array.from({ length: 16 }, (_, i) => {
      const minutes = i * 11
      return reading(
        `2026-03-02 ${String(6 + Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`,
        i % 2 === 0 ? 60 : 120,
      )
    })
    const [, row] = rowsOf(rows)
    expect(row[3].match(/■ 60/g)).toHaveLength(8)
    expect(row[3]).toContain('and 2 more')
    expect(rowsOf(crowded)[1][3]).toBe('120 (12)')
  })

  it('keeps a set together that crosses midnight, and loses no test of a set begun before the period', () => {
    const rows = [
      reading('2026-03-02 23:58', 120),
      reading('2026-03-03 00:02', 122),
      reading('2026-03-04 08:00', 99),
    ]
    const whole = rowsOf(rows)
    expect(whole[1][8]).toBe('121 (2)')
    expect(whole[2][1]).toBe('no readings')
    const day = parseIsoDay('2026-03-03') ?? 0
    const cut = blocksOf(analysisOf(rows, { period: { from: day, to: day + 1 } }))
    expect(JSON.stringify(cut)).toContain('121 (2)')
  })

  it('has a column for readings without a time', () => {
    const [head, row] = rowsOf([reading('2026-03-02', 61), reading('2026-03-02 07:00', 120)])
    expect(head[9]).toBe('no time')
    expect(row[9]).toBe('■ 61')
  })

  it('gives notes in short and entries as the log has them', () => {
    const at = (parseIsoDay('2026-03-02') ?? 0) * 86_400 + 7 * 3600
    const [, row] = rowsOf([reading('2026-03-02 07:00', 120, { note: 'x'.repeat(500) })], undefined, {
      entries: [{ at, dayOnly: false, source: 0, line: 9, label: 'Insulin', text: '6 U' }],
    })
    expect(row[9].replaceAll('\u200b', '')).toMatch(/^x{59}…; 07:00 Insulin 6 U$/)
  })

  it('is left out for a sensor, which has too many readings for it', () => {
    const rows = Array.from({ length: 288 }, (_, i) =>
      reading(
        `2026-03-02 ${String(Math.floor(i / 12)).padStart(2, '0')}:${String((i % 12) * 5).padStart(2, '0')}`,
        120,
        { sensor: true },
      ),
    )
    expect(rowsOf(rows)).toEqual([])
  })
})
