import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { reportContext } from '../../../src-core/report/context'
import { diary } from '../../../src-core/report/diary'
import type { Block, Inline, Table } from '../../../src-core/report/document'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

function blocksOf(analysis: Analysis, diaryDays?: number): readonly Block[] {
  return diary(
    reportContext(ENGLISH, analysis, {
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

/** Size of the table's type, points. */
function fontSizeOf(analysis: Analysis): number {
  const found = blocksOf(analysis).find((block): block is Table => 'table' in block)
  return found?.table.body[1][1].fontSize ?? 0
}

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

  it('goes by the log’s own meals; a test without a tag, or with one of no certain meal, stands under its hours', () => {
    const [head, row, second] = rowsOf([
      reading('2026-03-02 07:00', 120, { meal: 'before breakfast' }),
      reading('2026-03-02 10:00', 171),
      reading('2026-03-02 12:00', 99),
      reading('2026-03-02 15:00', 150, { meal: 'after lunch' }),
      reading('2026-03-03 12:10', 98, { meal: 'before meal' }),
      reading('2026-03-03 15:05', 149, { meal: 'after lunch' }),
    ])
    expect(head.slice(1, -1)).toEqual(['before breakfast', '09–12', '12–15', 'after lunch'])
    expect(row.slice(1, -1)).toEqual(['120', '171', '99', '150'])
    expect(second.slice(1, -1)).toEqual(['', '', '98', '149'])
  })

  it('puts no test under a meal that the log does not tell of it, whatever the hour', () => {
    const meals = [
      'before breakfast',
      'after breakfast',
      'before lunch',
      'after lunch',
      'before dinner',
      'after dinner',
    ]
    const tagged = [...meals, 'bedtime', 'night'].map((meal, i) =>
      reading(`2026-03-${String(i + 2).padStart(2, '0')} 13:13`, 131, { meal }),
    )
    const hours = [1, 4, 7, 10, 13, 16, 19, 22].map((hour, i) =>
      reading(`2026-03-${String(i + 10)} ${String(hour).padStart(2, '0')}:30`, 150 + i),
    )
    // Eight meals leave room for one column: the hour stands beside each test.
    const all = rowsOf([...tagged, ...hours])
    expect(all[0].slice(1, -1)).toEqual([
      ...['night', 'before breakfast', 'after breakfast', 'before lunch', 'after lunch', 'before dinner'],
      ...['after dinner', 'bedtime', '00–24, no tag'],
    ])
    expect(all.slice(9).map((row) => row.slice(1).filter((text) => text !== ''))).toEqual(
      hours.map(({ at, value }) => [`${at.slice(11)} ${value}`]),
    )
    // Four meals leave room for six hours each.
    const four = rowsOf([
      ...tagged.slice(0, 4),
      ...tagged.slice(0, 4).map((row) => ({ ...row, at: row.at.replace('13:13', '14:14') })),
      ...hours,
    ])
    expect(four[0].slice(1, -1)).toEqual([
      ...[
        '00–06',
        'before breakfast',
        '06–12',
        'after breakfast',
        'before lunch',
        '12–18',
        'after lunch',
        '18–24',
      ],
    ])
    for (const rows of [all, four])
      for (const { value } of hours)
        expect(JSON.stringify(rows).match(new RegExp(`\\b${value}\\b`, 'g'))).toHaveLength(1)
  })

  it('goes by the clock where the tags name no meal', () => {
    const [head] = rowsOf([reading('2026-03-02 07:00', 120, { meal: 'before meal' })])
    expect(head.slice(1, 4)).toEqual(['00–03', '03–06', '06–09'])
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

  it('shows repeats that agree once, at their mean with the count; else all in the order of the tests', () => {
    const [, row] = rowsOf([
      reading('2026-03-02 07:00', 118),
      reading('2026-03-02 07:02', 122),
      reading('2026-03-02 12:00', 240),
      reading('2026-03-02 12:02', 118),
      reading('2026-03-02 12:04', 122),
    ])
    expect(row[3]).toBe('120 (2)')
    expect(row[5]).toBe('240? →\u00a0118 →\u00a0122')
  })

  it('gives the weight to the value that is trusted, none to the doubtful one, and to a low above all', () => {
    const runsOf = (rows: readonly FixtureReading[], column: number) => {
      const found = blocksOf(analysisOf(rows)).find((block): block is Table => 'table' in block)
      const text = found?.table.body[1][column].text ?? ''
      const runs = (typeof text === 'string' ? [text] : text).filter((run) => plain([run]).match(/\d/))
      return runs.map((run) => (typeof run === 'string' ? { text: run } : run))
    }
    const usual = fontSizeOf(analysisOf([reading('2026-03-02 07:00', 120)]))
    const [wrong, right] = runsOf([reading('2026-03-02 12:00', 240), reading('2026-03-02 12:02', 118)], 5)
    expect([wrong.text, right.text]).toEqual(['240?', '118'])
    expect(wrong.bold).toBeUndefined()
    expect(wrong.fontSize).toBeLessThan(usual)
    expect(right).toEqual({ text: '118', bold: true })
    const afterLow = runsOf([reading('2026-03-02 12:00', 52), reading('2026-03-02 12:03', 240)], 5)
    expect(afterLow.map(({ text }) => text)).toEqual(['52', '240?', ' (3\u00a0min)'])
    expect(afterLow[0]).toMatchObject({ bold: true })
    expect(afterLow[0].fontSize).toBeGreaterThan(usual)
    expect(afterLow[1].fontSize).toBeLessThan(usual)
  })

  it('shows two that disagree, though neither is doubtful, as two', () => {
    const rows = [reading('2026-03-02 12:00', 150), reading('2026-03-02 12:00', 197)]
    const analysis = analysisOf(rows)
    expect([analysis.technique.repeatSets[0].agree, analysis.marked.size]).toEqual([false, 0])
    expect(rowsOf(rows)[1][5]).toBe('150 →\u00a0197')
  })

  it('shows a set that holds a low as a sequence with a solid square, never as an average', () => {
    const [, row] = rowsOf([reading('2026-03-02 07:00', 52), reading('2026-03-02 07:09', 90)])
    expect(row[3]).toBe('■\u00a052 →\u00a090 (9\u00a0min)')
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
    expect(row[3].match(/■\u00a060/g)).toHaveLength(8)
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
    expect(row[9]).toBe('■\u00a061')
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
