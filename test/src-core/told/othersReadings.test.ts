import { describe, expect, it } from 'vitest'
import { listedReadings, rowsView } from '../../../src-core/bridge/readingRows'
import { readingView } from '../../../src-core/bridge/readingView'
import { visitView } from '../../../src-core/bridge/visitView'
import { keyOf } from '../../../src-core/analysis/readingKeys'
import { othersReadingsTold } from '../../../src-core/told/othersReadings'
import { ENGLISH } from '../../../src-core/wording/english'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { CONTEXT } from '../../helpers/logs'
import { documentOf } from '../../helpers/pages'

const rows: readonly FixtureReading[] = Array.from({ length: 20 }, (_, i) => ({
  at: `2026-03-${String(1 + i).padStart(2, '0')} 08:00`,
  value: i === 4 ? 61 : 110 + ((i * 7) % 30),
  note: i === 4 ? 'Messung Vater' : i === 9 ? 'wife tested' : i === 12 ? 'wife says I was pale' : '',
}))
const analysis = analysisOf(rows)
const { readings, periods, sources } = analysis
const decided = (choice: 'keep' | 'leave-out') =>
  analysisOf(rows, {
    decisions: [
      {
        reading: keyOf(
          readings,
          4,
          sources.map(({ sha256 }) => sha256),
        ),
        choice,
        reason: 'my father’s',
        decidedAt: '2026-04-01T10:00',
      },
    ],
  })
const TO_DECIDE = { show: 'doubtful', text: '', meal: null, meter: null, fromHour: null } as const

describe('readings that may be somebody else’s', () => {
  it('are listed until something is decided of them', () => {
    expect(othersReadingsTold(analysis, periods[0])).toEqual({ n: 2, listed: [4, 9] })
    for (const choice of ['keep', 'leave-out'] as const) {
      const after = decided(choice)
      expect(othersReadingsTold(after, after.periods[0]).listed).toEqual([9])
    }
  })

  it('are counted beyond eight', () => {
    const many = analysisOf(rows.map((row) => ({ ...row, note: 'not mine' })))
    const told = othersReadingsTold(many, many.periods[0])
    expect([told.n, told.listed.length]).toEqual([20, 8])
    expect(JSON.stringify(documentOf(many))).toContain('; and 12 more. They are counted')
  })

  it('change no figure and no doubt by themselves', () => {
    const plain = analysisOf(rows.map((row) => ({ ...row, note: '' })))
    expect(periods[0].asLogged).toEqual(plain.periods[0].asLogged)
    expect(periods[0].checked).toEqual(plain.periods[0].checked)
    expect(analysis.technique.doubt).toEqual(plain.technique.doubt)
    expect(analysis.technique.doubtful).toEqual(plain.technique.doubtful)
  })

  it('that are low stay among the lows whatever is decided', () => {
    for (const choice of ['keep', 'leave-out'] as const) {
      expect(decided(choice).periods[0].lows.readingsBelow70).toBe(1)
    }
  })

  it('stand on paper with date, value and note, the note not where notes are not printed', () => {
    const text = JSON.stringify(documentOf(analysis))
    expect(text).toContain(
      '2 readings have notes that say they may be somebody else’s: 5 March, 08:00: ■ 61 ‘Messung Vater’; ' +
        '10 March, 08:00: 113 ‘wife tested’. They are counted until you decide.',
    )
    const without = JSON.stringify(documentOf(analysis, { withoutNotes: true }))
    expect(without).toContain(
      '5 March, 08:00: ■ 61; 10 March, 08:00: 113. They are counted until you decide.',
    )
    expect(without).not.toContain('wife')
  })
})

describe('the window', () => {
  it('lists them among those to decide, and counts what is open', () => {
    const listed = listedReadings(ENGLISH, analysis, TO_DECIDE)
    expect([...listed]).toEqual(expect.arrayContaining([4, 9]))
    expect([...listed]).not.toContain(12)
    expect(rowsView(ENGLISH, analysis, 'doubtful', listed, 0, 10).told).toMatch(
      /2 readings that may be somebody else’s/,
    )
    const { counts } = visitView(ENGLISH, analysis, CONTEXT)
    expect(counts).toMatchObject({ others: 2, open: counts.doubtful + 2 })
    const after = visitView(ENGLISH, decided('leave-out'), CONTEXT)
    expect(after.counts).toMatchObject({ others: 2, open: counts.open - 1 })
  })

  it('asks of one whose it is, and tells of a low that it stays one', () => {
    expect(readingView(ENGLISH, analysis, 9)?.anothers?.why).toMatch(
      /‘wife tested’.* counted until you decide/,
    )
    expect(readingView(ENGLISH, analysis, 4)?.anothers?.why).toContain(
      'stays among the lows whatever you decide',
    )
    expect(readingView(ENGLISH, analysis, 4)?.decision).toBeNull()
    expect(readingView(ENGLISH, analysis, 12)?.anothers).toBeNull()
  })
})
