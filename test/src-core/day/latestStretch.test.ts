import { expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { latestSentence } from '../../../src-core/wording/english/besideNumbers'
import { reportContext } from '../../../src-core/report/context'
import { besideNumbers } from '../../../src-core/told/besideNumbers'
import { theWeek } from '../../../src-core/report/theWeek'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

const sentences = (analysis: ReturnType<typeof analysisOf>) =>
  besideNumbers(analysis, analysis.periods[0]).map((beside) =>
    ENGLISH.besideNumbers.besideSentence(beside, analysis.settings, 'without-year'),
  )

const PAGE = { paper: 'A4', label: null, madeAt: 0, programVersion: '' } as const

/** Two readings a day, 10 below and above the level of the day, so that their mean is the level. */
function log(days: number, levelOn: (day: number) => number): readonly FixtureReading[] {
  return Array.from({ length: days }, (_, day) => {
    const date = new Date(Date.UTC(2026, 0, 1) + day * 864e5).toISOString().slice(0, 10)
    const level = levelOn(day) + (day % 3) - 1
    return [
      { at: `${date} 08:00`, value: level - 10 },
      { at: `${date} 19:00`, value: level + 10 },
    ]
  }).flat()
}
const latestOf = (rows: readonly FixtureReading[]) => analysisOf(rows).periods[0].latestStretch

it('the latest 30 days of a long period stand beside the days before, a change as a total with its beginning', () => {
  // 111 days at 230, then 60 at 140: the last 30 days are all at 140, of the 141 before 30 are.
  const found = latestOf(log(171, (day) => (day < 111 ? 230 : 140)))
  expect(found).toMatchObject({ n: 60, daysWithReadings: 30, readingsBelow70: 0, percentInTarget: 100 })
  expect(found?.meanMgDl).toBeCloseTo(140, 9)
  expect(found?.before.meanMgDl).toBeCloseTo((111 * 230 + 30 * 140) / 141, 6)
  // Whole weeks back from the last day: day 115 is the first of those that are nearer to 140 (170 - 8 x 7 + 1).
  expect(found?.before.changedSince).toBe((parseIsoDay('2026-01-01') ?? NaN) + 108)
  expect(found && latestSentence(found, DEFAULT_SETTINGS, 'without-year')).toBe(
    'Latest 30 days (22 May to 20 June 2026, 60 readings): mean 140, 100 % from 70 to 180, 0 readings below 70; before: mean 211, 21 %. The mean has gone from about 211 to about 140 since about 19 April.',
  )
})

it('no change is claimed of a level that stays, and nothing is said of 90 days or fewer', () => {
  const found = latestOf(log(120, () => 150))
  expect(found?.before.changedSince).toBeNull()
  expect(found && latestSentence(found, DEFAULT_SETTINGS, 'without-year')).toMatch(
    / No clear change in the mean\.$/,
  )
  expect(latestOf(log(90, () => 150))).toBeNull()
})

it('nor where the latest days, or those before, are hardly tested', () => {
  const rows = log(171, () => 150)
  const day = ({ at }: FixtureReading) => Date.parse(at.slice(0, 10)) / 864e5 - Date.UTC(2026, 0, 1) / 864e5
  expect(latestOf(rows.filter((row) => day(row) < 140 || day(row) >= 168))).toBeNull()
  expect(latestOf(rows.filter((row) => day(row) < 5 || day(row) >= 141))).toBeNull()
})

it('where page 1 tells of a step, the page of days claims no level line beside it', () => {
  const step = analysisOf(log(171, (day) => (day < 141 ? 230 : 140)))
  const text = JSON.stringify(theWeek(reportContext(ENGLISH, step, PAGE)))
  expect(text).not.toContain('weekly median')
  expect(JSON.stringify(theWeek(reportContext(ENGLISH, analysisOf(log(171, () => 150)), PAGE)))).toContain(
    'No clear change in the weekly median',
  )
})

it('a log of one value again and again is told as such, one of a few readings not', () => {
  const texts = (days: number) =>
    sentences(analysisOf(log(days, () => 150).map((row) => ({ ...row, value: 140 }))))
  expect(texts(30)[0]).toMatch(/^All 60 readings have the same value, which no meter shows again and again/)
  expect(texts(5)).toEqual([])
})
