import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { summarise } from '../../../src-core/statistics/summary'
import { isoDay, dayOf } from '../../../src-core/units/wallClock'
import { logbookOf, refusalsOf } from '../../helpers/logs'

// Finger-stick logs of 1988 to 1991 (AIM-94 data set, M. Kahn, UCI Machine Learning Repository,
// doi:10.24432/C5T59G), kept beside the project where it is developed; the figures of each were computed
// independently of this project.
const DATA = join(import.meta.dirname, '../../../../shared/open-data')
const missing = !existsSync(join(DATA, 'aim94'))

/** Codes of glucose readings before and after meals and snacks, and unspecified ones. */
const COLUMNS = 'date=1,time=2,kind=3:48|57|58|59|60|61|62|63|64,glucose=4'

interface Reference {
  readonly file: string
  readonly rows: string
  readonly n: string
  readonly mean: string
  readonly sd: string
  readonly first: string
  readonly last: string
}

function read(name: string): string {
  return readFileSync(join(DATA, 'aim94', name), 'latin1')
}

function figuresOf(...names: string[]) {
  const { readings, sources } = logbookOf(names.map(read), { columns: COLUMNS, unit: 'mg/dL' })
  const { n, meanMgDl: mean, sdMgDl: sd } = summarise(readings, 0, readings.n, DEFAULT_SETTINGS)
  return { n, mean: mean ?? NaN, sd: sd ?? NaN, readings, sources }
}

describe.skipIf(missing)(
  'open finger-stick logs without a header (skipped where they are not at hand)',
  () => {
    const references = missing
      ? []
      : parse<Reference>(readFileSync(join(DATA, 'reference-aim94.csv'), 'utf8'), { columns: true })

    it('are all there', () => {
      expect(references.map(({ file }) => file)).toEqual(readdirSync(join(DATA, 'aim94')).sort())
    })

    // data-02 has markers that the reference leaves out; data-09 one value of zero.
    it.each(references.filter(({ file }) => file !== 'data-02'))(
      '$file gives $n readings, mean $mean, SD $sd',
      (reference) => {
        const { n, mean, sd, readings, sources } = figuresOf(reference.file)
        expect([n, mean.toFixed(4), sd.toFixed(4)]).toEqual([
          Number(reference.n),
          reference.mean,
          reference.sd,
        ])
        expect([isoDay(dayOf(readings.at[0])), isoDay(dayOf(readings.at[n - 1]))]).toEqual([
          reference.first,
          reference.last,
        ])
        expect(sources[0].rows.total).toBe(Number(reference.rows))
      },
    )

    it.each(references.map(({ file }) => file))('%s is not guessed at: its columns are asked for', (file) => {
      expect(refusalsOf(read(file))[0].code).toBe('no-glucose-column')
    })

    it('data-02 counts its markers at the limits: 380 readings, mean 200.116', () => {
      const { n, mean } = figuresOf('data-02')
      expect([n, mean.toFixed(3)]).toEqual([380, '200.116'])
    })

    it('overlap where one meter was read out twice, and are counted once then', () => {
      const both = figuresOf('data-04', 'data-05')
      expect([both.n, both.mean.toFixed(4), both.sd.toFixed(4)]).toEqual([193, '162.5026', '76.5241'])
      const three = figuresOf('data-03', 'data-04', 'data-05')
      expect([three.n, three.mean.toFixed(4)]).toEqual([298, '150.4362'])
    })
  },
)
