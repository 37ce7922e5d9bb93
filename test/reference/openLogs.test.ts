import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../src-core/analysis/analysis'
import type { VisitOptions } from '../../src-core/analysis/openVisit'
import { isoDay } from '../../src-core/units/wallClock'
import { analysed, compareFigures, figuresByR, figuresOf, hasR } from './referenceFigures'

// Open finger-stick logs, kept beside the project where it is developed: AIM-94 data set (M. Kahn, UCI Machine
// Learning Repository, doi:10.24432/C5T59G) and Zhao et al., Scientific Data 2023;10:35. The figures in the
// tables beside them were computed apart from this project.

const DATA = join(import.meta.dirname, '../../../shared/open-data')
const missing = !existsSync(DATA)

interface Collection {
  readonly folder: string
  readonly table: string
  readonly options: VisitOptions
  /** Logs of which the table leaves readings out that count here: markers. */
  readonly otherRule: readonly string[]
}

const COLLECTIONS: readonly Collection[] = [
  {
    folder: 'aim94',
    table: 'reference-aim94.csv',
    options: {
      answers: { columns: 'date=1,time=2,kind=3:48|57|58|59|60|61|62|63|64,glucose=4', unit: 'mg/dL' },
    },
    otherRule: ['data-02'],
  },
  {
    folder: 'finger-sticks-with-laboratory-a1c',
    table: 'reference-finger-sticks.csv',
    options: { answers: { columns: 'time=1,glucose=3' } },
    otherRule: [],
  },
]

/** The columns of the tables, as the tables round them. */
function tableRow({ periods: [{ asLogged, from, to, days, daysWithReadings }] }: Analysis) {
  const four = (value: number | null) => (value === null ? '' : value.toFixed(4))
  return {
    n: String(asLogged.n),
    mean: four(asLogged.meanMgDl),
    sd: four(asLogged.sdMgDl),
    cv: four(asLogged.cvPercent),
    median: four(asLogged.medianMgDl),
    q1: four(asLogged.q1MgDl),
    q3: four(asLogged.q3MgDl),
    min: four(asLogged.minMgDl),
    max: four(asLogged.maxMgDl),
    lt54: four(asLogged.percentBelow54),
    lt70: four(asLogged.percentBelow70),
    in70_180: four(asLogged.percentInTarget),
    gt180: four(asLogged.percentAbove180),
    gt250: four(asLogged.percentAbove250),
    ea1c: four(asLogged.estimatedA1cPercent),
    first: isoDay(from),
    last: isoDay(to),
    span_days: String(days),
    days_with_readings: String(daysWithReadings),
  }
}

describe.skipIf(missing).each(COLLECTIONS)(
  'the open logs of $folder (skipped where they are not at hand)',
  ({ folder, table, options, otherRule }) => {
    const rows = missing
      ? []
      : parse<Record<string, string>>(readFileSync(join(DATA, table), 'utf8'), { columns: true })
    const paths = rows.map(({ file }) => join(DATA, folder, file))
    const analyses = paths.map((path) => analysed(path, options))

    it('have the figures of the table beside them', () => {
      const logs = readdirSync(join(DATA, folder)).filter((file) => file !== 'laboratory-a1c.csv')
      expect(rows.map(({ file }) => file).sort()).toEqual(logs.sort())
      rows.forEach((row, i) => {
        if (otherRule.includes(row.file)) return
        expect({ file: row.file, ...row }).toMatchObject({ file: row.file, ...tableRow(analyses[i]) })
      })
    })

    it.skipIf(!hasR)('have the figures that R computes from them (skipped where R is not installed)', () => {
      const reference = figuresByR(paths, analyses)
      let count = 0
      rows.forEach(({ file }, i) => {
        const { compared, apart } = compareFigures(figuresOf(analyses[i]), reference[file])
        expect([file, apart]).toEqual([file, []])
        count += compared
      })
      expect(count).toBeGreaterThan(500 * rows.length)
    })
  },
)
