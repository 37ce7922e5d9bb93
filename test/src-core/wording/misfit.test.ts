import { describe, expect, it } from 'vitest'
import { trustView } from '../../../src-core/bridge/trustView'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { doubtsOf } from '../../../src-core/told/doubts'
import { misfitSentence } from '../../../src-core/wording/english/trust'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'
import { randomSource } from '../../helpers/randomSource'
import { ENGLISH } from '../../../src-core/wording/english'

/** Five tests a day, four hours apart, in an order that tells nothing. */
function logOf(values: readonly number[]): readonly FixtureReading[] {
  const source = randomSource(6)
  const left = [...values]
  return values.map((_, i) => {
    const [value] = left.splice(source.nextBelow(left.length), 1)
    const day = new Date(Date.UTC(2026, 0, 1 + Math.floor(i / 5))).toISOString().slice(0, 10)
    return { at: `${day} ${String(6 + 4 * (i % 5) - (i % 5 === 4 ? 1 : 0)).padStart(2, '0')}:00`, value }
  })
}

/** Eight of ten values within a quarter of 150, the others far out as by Student's t with 2 degrees of freedom, and lows. */
const FAR_OUT = logOf([
  ...Array.from({ length: 300 }, (_, i) => {
    const p = (i + 0.5) / 300
    const t = (share: number) => (2 * share - 1) / Math.sqrt(2 * share * (1 - share))
    return Math.min(590, Math.max(75, Math.round(150 * Math.exp((0.25 * t(p)) / t(0.9)))))
  }),
  50,
  62,
])
const SENTENCE = /The usual estimate of doubt fits this log badly: values far from the middle are commoner/

describe('a log that the usual estimate of doubt fits badly', () => {
  it('is told where trust is told, with how many readings are not doubtful for it', () => {
    const analysis = analysisOf(FAR_OUT)
    const { notDoubtfulForMisfit } = analysis.technique
    expect(notDoubtfulForMisfit.length).toBeGreaterThan(0)
    // Far values, none of which was repeated.
    for (const index of notDoubtfulForMisfit) expect(analysis.readings.mgDl[index]).toBeGreaterThan(250)
    const said = [
      JSON.stringify(documentOf(analysis)),
      trustView(ENGLISH, analysis, analysis.periods[0]).join(' '),
      terminalSummary(ENGLISH, analysis, []).join(' '),
    ]
    for (const text of said) {
      expect(text).toMatch(SENTENCE)
      expect(text).toContain(`so ${notDoubtfulForMisfit.length} readings are not called doubtful.`)
    }
    const { technique } = reportJson(ENGLISH, analysis, { name: 'test', version: '0' }) as {
      technique: { fitsBadly: readonly string[]; notDoubtfulForIt: readonly { mgDl: number }[] }
    }
    expect(technique.fitsBadly).toEqual(['far-values'])
    expect(technique.notDoubtfulForIt).toHaveLength(notDoubtfulForMisfit.length)
  })

  it('hides no low, and leaves none out of a count', () => {
    const { periods, technique, readings } = analysisOf(FAR_OUT)
    expect(periods[0].lows.readingsBelow70).toBe(2)
    const lows = Array.from({ length: readings.n }, (_, i) => i).filter((i) => readings.mgDl[i] < 70)
    expect(lows.map((i) => technique.notDoubtfulForMisfit.includes(i))).toEqual([false, false])
  })

  it('is told of the days of the report alone', () => {
    const dayOfRow = ({ at }: FixtureReading) => Date.parse(`${at.slice(0, 10)}T00:00Z`) / 86_400_000
    const of = new Set(analysisOf(FAR_OUT).technique.notDoubtfulForMisfit.map((i) => dayOfRow(FAR_OUT[i])))
    const from = FAR_OUT.map(dayOfRow).find((day) => !of.has(day)) ?? NaN
    const analysis = analysisOf(FAR_OUT, { period: { from, to: from } })
    expect(trustView(ENGLISH, analysis, analysis.periods[0]).join(' ')).not.toMatch(SENTENCE)
  })

  it('is not told of a log that fits, nor where nothing hangs on it', () => {
    const even = logOf(Array.from({ length: 300 }, (_, i) => Math.round(150 * Math.exp(0.25 * Math.sin(i)))))
    const analysis = analysisOf(even)
    expect(analysis.technique.misfit).toEqual({ wide: false, quick: false })
    expect(trustView(ENGLISH, analysis, analysis.periods[0]).join(' ')).not.toMatch(SENTENCE)
    expect(doubtsOf(analysis, analysis.periods[0]).misfit).toBeNull()
    expect(misfitSentence({ wide: true, quick: true, notDoubtful: 1 })).toContain(
      'commoner, and readings an hour or two apart differ more than it expects. That is taken to be usual for this person, so 1 reading is not',
    )
  })
})
