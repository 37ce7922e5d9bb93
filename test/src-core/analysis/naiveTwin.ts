import type { Analysis } from '../../../src-core/analysis/analysis'
import type { GlucoseUnit } from '../../../src-core/units/glucose'
import type { FixtureReading } from '../../helpers/analysisFixture'
import type { Figure } from '../../reference/referenceFigures'

// The figures written out from their definitions, slowly and plainly, from the rows of a log; in the form of the JSON.

interface Row {
  readonly line: number
  /** Minutes since the epoch, and the minute of the day; a row without a time has none. */
  readonly at: number
  readonly day: number
  readonly minute: number | null
  readonly mgDl: number
  readonly logged: number
  readonly marker: 'LO' | 'HI' | null
  readonly meter: string
  readonly meal: string
}

const LIMITS = { 54: 3, 70: 3.9, 80: 4.4, 130: 7.2, 180: 10, 250: 13.9 } as const
type Limit = keyof typeof LIMITS

export class NaiveTwin {
  readonly rows: readonly Row[]

  constructor(
    log: readonly FixtureReading[],
    private readonly unit: GlucoseUnit,
  ) {
    this.rows = log
      .map((reading, i): Row => {
        const timed = reading.at.includes(' ')
        const at = Date.parse(`${reading.at.replace(' ', 'T')}${timed ? 'Z' : 'T00:00Z'}`) / 60_000
        const marker = typeof reading.value === 'string' ? reading.value : null
        const mgDl =
          reading.value === 'LO'
            ? 20
            : reading.value === 'HI'
              ? 600
              : reading.value * (unit === 'mmol/L' ? 18.0156 : 1)
        return {
          line: i + 2,
          at,
          day: Math.floor(at / 1440),
          minute: timed ? at % 1440 : null,
          mgDl,
          logged: unit === 'mmol/L' ? mgDl / 18.0156 : mgDl,
          marker,
          meter: reading.meter ?? '',
          meal: reading.meal ?? '',
        }
      })
      .sort((a, b) => a.at - b.at || a.line - b.line)
  }

  below(row: Row, limit: Limit): boolean {
    return this.unit === 'mmol/L' && row.marker === null
      ? row.logged < LIMITS[limit] - 1e-9
      : row.mgDl < limit
  }

  above(row: Row, limit: Limit): boolean {
    return this.unit === 'mmol/L' && row.marker === null
      ? row.logged > LIMITS[limit] + 1e-9
      : row.mgDl > limit
  }

  summary(rows = this.rows): Readonly<Record<string, Figure>> {
    const values = rows.map(({ mgDl }) => mgDl)
    const share = (holds: (row: Row) => boolean) => (100 * rows.filter(holds).length) / rows.length
    const blocks = [0, 1, 2, 3, 4, 5, 6, 7]
      .map((block) => inHours(rows, 3 * block, 3 * block + 3).map(({ mgDl }) => mgDl))
      .filter((of) => of.length >= 5)
    const risk = (mgDl: number) => 1.509 * (Math.log(mgDl) ** 1.084 - 5.381)
    const average = mean(values)
    return {
      n: rows.length,
      meanMgDl: average,
      sdMgDl: sd(values),
      cvPercent: rows.length < 2 ? null : (100 * Number(sd(values))) / average,
      medianMgDl: quantile(values, 0.5),
      q1MgDl: quantile(values, 0.25),
      q3MgDl: quantile(values, 0.75),
      minMgDl: Math.min(...values),
      maxMgDl: Math.max(...values),
      belowRange: rows.filter(({ marker }) => marker === 'LO').length,
      aboveRange: rows.filter(({ marker }) => marker === 'HI').length,
      percentBelow54: share((row) => this.below(row, 54)),
      percentBelow70: share((row) => this.below(row, 70)),
      percentInTarget: share((row) => !this.below(row, 70) && !this.above(row, 180)),
      percentAbove180: share((row) => this.above(row, 180)),
      percentAbove250: share((row) => this.above(row, 250)),
      estimatedA1cPercent: (average + 46.7) / 28.7,
      balancedMeanMgDl: blocks.length === 0 ? null : mean(blocks.map(mean)),
      balancedBlocks: blocks.length,
      lbgi: mean(values.map((mgDl) => (risk(mgDl) < 0 ? 10 * risk(mgDl) ** 2 : 0))),
      hbgi: mean(values.map((mgDl) => (risk(mgDl) > 0 ? 10 * risk(mgDl) ** 2 : 0))),
    }
  }

  timeOfDay(): Figure {
    const hours = Array.from({ length: 24 }, (_, hour) => {
      const values = inHours(this.rows, hour, hour + 1).map(({ mgDl }) => mgDl)
      const [p10, q1, median, q3, p90] = [0.1, 0.25, 0.5, 0.75, 0.9].map((p) => quantile(values, p))
      return { hour, n: values.length, p10, q1, median, q3, p90 }
    })
    const blocks = [0, 3, 6, 9, 12, 15, 18, 21].map((fromHour) => {
      const rows = inHours(this.rows, fromHour, fromHour + 3)
      const values = rows.map(({ mgDl }) => mgDl)
      const share = (holds: (row: Row) => boolean) =>
        rows.length === 0 ? null : (100 * rows.filter(holds).length) / rows.length
      return {
        fromHour,
        n: rows.length,
        meanMgDl: rows.length === 0 ? null : mean(values),
        sdMgDl: sd(values),
        medianMgDl: quantile(values, 0.5),
        percentBelow70: share((row) => this.below(row, 70)),
        percentAbove180: share((row) => this.above(row, 180)),
      }
    })
    return { hours, blocks }
  }

  lows(doubtful: ReadonlySet<number>): Figure {
    const timed = this.rows.filter(({ minute }) => minute !== null)
    // Two lows belong together where they are neighbours in time at most an hour apart.
    const joined = (i: number) =>
      i > 0 && this.below(timed[i - 1], 70) && this.below(timed[i], 70) && timed[i].at - timed[i - 1].at <= 60
    const episodes = timed
      .map((row, i) => ({ row, i }))
      .filter(({ row, i }) => this.below(row, 70) && !joined(i))
      .map(({ i }) => {
        let end = i + 1
        while (end < timed.length && joined(end)) end++
        const members = timed.slice(i, end)
        return {
          from: momentOf(members[0]),
          to: momentOf(members[members.length - 1]),
          lowestMgDl: Math.min(...members.map(({ mgDl }) => mgDl)),
          readings: members.length,
          doubtful: members.filter(({ line }) => doubtful.has(line)).length,
        }
      })
    return {
      readingsBelow70: this.rows.filter((row) => this.below(row, 70)).length,
      readingsBelow54: this.rows.filter((row) => this.below(row, 54)).length,
      nightsTested: new Set(inHours(this.rows, 0, 6).map(({ day }) => day)).size,
      nightsTestedByHour: [0, 1, 2, 3, 4, 5].map(
        (hour) => new Set(inHours(this.rows, hour, hour + 1).map(({ day }) => day)).size,
      ),
      daysWithLows: new Set(this.rows.filter((row) => this.below(row, 70)).map(({ day }) => day)).size,
      episodes,
    }
  }

  sets(): readonly (readonly Row[])[] {
    const timed = this.rows.filter(({ minute }) => minute !== null)
    const near = (i: number) => i > 0 && timed[i].at - timed[i - 1].at <= 10
    const runs: Row[][] = []
    timed.forEach((row, i) => (near(i) ? runs[runs.length - 1].push(row) : runs.push([row])))
    return runs.filter((run) => run.length > 1)
  }

  repeatSets(): readonly Figure[] {
    return this.sets().map((members) => {
      const values = members.map(({ mgDl }) => mgDl)
      const [lowest, highest] = [Math.min(...values), Math.max(...values)]
      const agree = members.every((a) =>
        members.every((b) => {
          const s = (mgDl: number) => (0.15 * Math.max(mgDl, 100)) / 1.96
          const allowed = 1.96 * Math.sqrt(s(a.mgDl) ** 2 + s(b.mgDl) ** 2) + 2 * Math.abs(a.at - b.at)
          return Math.abs(a.mgDl - b.mgDl) <= allowed + 1e-9
        }),
      )
      return {
        members: members.map(({ line }) => ({ line })),
        meanMgDl: mean(values),
        spreadPercent: (100 * (highest - lowest)) / mean(values),
        agree,
        holdsLow: members.some((row) => this.below(row, 70)),
      }
    })
  }

  checked(doubtful: ReadonlySet<number>): Readonly<Record<string, Figure>> {
    const goes = (row: Row) => doubtful.has(row.line) && !this.below(row, 70)
    const sets = this.sets().filter((members) => !members.some((row) => this.below(row, 70)))
    const left = this.rows.flatMap((row) => {
      if (goes(row)) return []
      const rest = sets.find((members) => members.includes(row))?.filter((member) => !goes(member))
      if (rest === undefined || rest.length < 2) return [row]
      if (row !== rest[0]) return []
      const logged = mean(rest.map((member) => member.logged))
      const marker = rest.every((member) => member.marker === row.marker) ? row.marker : null
      return [{ ...row, logged, marker, mgDl: mean(rest.map(({ mgDl }) => mgDl)) }]
    })
    const { percentBelow54, percentBelow70 } = this.summary()
    return { ...this.summary(left), percentBelow54, percentBelow70 }
  }

  /** `meals` names the moment of each tag. */
  byMeal(meals: Readonly<Record<string, string>>): Figure {
    const at = (moment: string) => this.rows.filter(({ meal }) => meals[meal] === moment)
    const pairs = ['breakfast', 'lunch', 'dinner'].flatMap((meal) => {
      const usable = (row: Row) => row.minute !== null && row.marker === null
      let befores = at(`before-${meal}`).filter(usable)
      return at(`after-${meal}`)
        .filter(usable)
        .flatMap((after) => {
          const before = befores.findLast((row) => after.at - row.at >= 60 && after.at - row.at <= 150)
          if (before === undefined) return []
          befores = befores.slice(befores.indexOf(before) + 1)
          return [
            {
              meal,
              before: { line: before.line },
              after: { line: after.line },
              riseMgDl: after.mgDl - before.mgDl,
            },
          ]
        })
    })
    const moments = [...new Set(Object.values(meals))]
      .filter((moment) => at(moment).length > 0)
      .map((moment) => {
        const values = at(moment).map(({ mgDl }) => mgDl)
        const goal = (row: Row) =>
          moment.startsWith('before')
            ? !this.below(row, 80) && !this.above(row, 130)
            : this.below(row, 180) && !this.below(row, 70)
        return {
          moment,
          n: values.length,
          medianMgDl: quantile(values, 0.5),
          minMgDl: Math.min(...values),
          maxMgDl: Math.max(...values),
          ...(/^(before|after)-/.test(moment) && { withinGoal: at(moment).filter(goal).length }),
        }
      })
    return { tagged: this.rows.filter(({ meal }) => meal in meals).length, moments, pairs }
  }

  week(): Figure {
    const weekend = ({ day }: Row) => [0, 6].includes(new Date(day * 86_400_000).getUTCDay())
    const kind = (rows: readonly Row[]) => ({
      n: rows.length,
      medianMgDl: quantile(
        rows.map(({ mgDl }) => mgDl),
        0.5,
      ),
    })
    const days = [...new Set(this.rows.map(({ day }) => day))]
    // Stretches of seven days from the first day on, of which three or more were tested.
    const weekOf = (day: number) => Math.floor((day - days[0]) / 7)
    const medians = [...new Set(days.map(weekOf))]
      .filter((week) => days.filter((day) => weekOf(day) === week).length >= 3)
      .map((week) => {
        const values = this.rows.filter(({ day }) => weekOf(day) === week).map(({ mgDl }) => mgDl)
        return { week, median: Number(quantile(values, 0.5)) }
      })
    const slopes = medians.flatMap((a, i) =>
      medians.slice(i + 1).map((b) => (b.median - a.median) / (b.week - a.week)),
    )
    return {
      weekdays: kind(this.rows.filter((row) => !weekend(row))),
      weekend: kind(this.rows.filter(weekend)),
      daysWithEnough: days.filter((day) => this.rows.filter((row) => row.day === day).length >= 3).length,
      hoursNeverTested: Array.from({ length: 24 }, (_, hour) => hour).filter(
        (hour) => inHours(this.rows, hour, hour + 1).length === 0,
      ),
      trendMgDlPerWeek: medians.length < 6 ? null : Number(quantile(slopes, 0.5)),
    }
  }

  /** Of the days before `day` against those from it on. */
  comparison(day: number): Figure {
    const [first, second] = [
      this.rows.filter((row) => row.day < day),
      this.rows.filter((row) => row.day >= day),
    ]
    const [a, b] = [this.summary(first), this.summary(second)]
    const names = ['meanMgDl', 'medianMgDl', 'sdMgDl', 'cvPercent', 'percentBelow54', 'percentBelow70']
    const measures = [...names, 'percentInTarget', 'percentAbove180', 'percentAbove250'].map((measure) => ({
      measure,
      first: a[measure],
      second: b[measure],
      difference: a[measure] === null || b[measure] === null ? null : Number(a[measure]) - Number(b[measure]),
    }))
    const used = [0, 3, 6, 9, 12, 15, 18, 21].filter((hour) =>
      [first, second].every((rows) => inHours(rows, hour, hour + 3).length >= 5),
    )
    if (used.length < 4) return { measures, sameTimesOfDay: null }
    const all = used.flatMap((hour) => inHours(this.rows, hour, hour + 3)).length
    const standardised = (rows: readonly Row[]) =>
      used.reduce((sum, hour) => {
        const weight = inHours(this.rows, hour, hour + 3).length / all
        return sum + weight * mean(inHours(rows, hour, hour + 3).map(({ mgDl }) => mgDl))
      }, 0)
    return {
      measures,
      sameTimesOfDay: { first: standardised(first), second: standardised(second), fromHours: used },
    }
  }
}

function inHours(rows: readonly Row[], from: number, to: number): readonly Row[] {
  return rows.filter(({ minute }) => minute !== null && minute >= 60 * from && minute < 60 * to)
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

function sd(values: readonly number[]): number | null {
  if (values.length < 2) return null
  const squares = values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0)
  return Math.sqrt(squares / (values.length - 1))
}

function quantile(values: readonly number[], p: number): number | null {
  if (values.length === 0) return null
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * p
  const below = Math.floor(place)
  return sorted[below] + (place - below) * ((sorted[below + 1] ?? sorted[below]) - sorted[below])
}

function momentOf({ at }: Row): string {
  return new Date(at * 60_000).toISOString().slice(0, 16)
}

/** Lines of the readings that the program doubts. */
export function doubtfulLines({ technique, readings }: Analysis): ReadonlySet<number> {
  return new Set(technique.doubtful.map(({ index }) => readings.line[index]))
}
