import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findDuplicates } from '../../../src-core/log/duplicates'
import { FLAG, ReadingsBuilder } from '../../../src-core/log/readings'

interface Row {
  readonly source: number
  readonly second: number | null
  readonly offset: number | null
  readonly meter: string
  readonly value: number
  readonly unit: 'mg/dL' | 'mmol/L'
  readonly marker: number
  readonly dayOnly: boolean
}

// Values that are each other's roundings, and each other in the other unit: 5.6 mmol/L is 100.9 mg/dL.
const VALUES = { 'mg/dL': [100, 101, 100.5, 100.9, 101.4], 'mmol/L': [5.6, 5.5, 5.55, 5.61] } as const

const rows = fc.array(
  fc
    .record({
      source: fc.nat(2),
      second: fc.constantFrom(null, 0, 30),
      offset: fc.constantFrom(null, 60, 120),
      meter: fc.constantFrom('', 'a', 'b'),
      unit: fc.constantFrom('mg/dL' as const, 'mmol/L' as const),
      place: fc.nat(4),
      marker: fc.constantFrom(0, 0, FLAG.aboveRange),
      dayOnly: fc.constantFrom(false, false, false, true),
    })
    .map(({ place, ...row }): Row => ({ ...row, value: VALUES[row.unit][place % VALUES[row.unit].length] })),
  { maxLength: 40 },
)

/** All at 07:10 of one day, or of the day alone; the lines of each log in the order given. */
function built(of: readonly Row[]): ReadingsBuilder {
  const builder = new ReadingsBuilder()
  const day = Date.UTC(2026, 2, 2) / 1000
  ;[...of]
    .sort((a, b) => a.source - b.source)
    .forEach((row, i) => {
      const flags = row.dayOnly
        ? FLAG.dayOnly
        : (row.second === null ? 0 : FLAG.seconds) | (row.offset === null ? 0 : FLAG.offset)
      builder.add({
        at: day + (row.dayOnly ? 0 : 25_800 + (row.second ?? 0)),
        logged: row.value,
        unit: row.unit,
        flags: flags | row.marker,
        source: row.source,
        line: i + 2,
        offsetMinutes: row.dayOnly ? 0 : (row.offset ?? 0),
        meter: row.meter,
        meal: '',
        note: '',
      })
    })
  return builder
}

const PER_MMOL = 18.0156

/** The definition, word by word, each row held against each. */
function byDefinition(builder: ReadingsBuilder): { place: number; of: number }[] {
  const places = Array.from({ length: builder.n }, (_, i) => i)
  const found: { place: number; of: number }[] = []
  const ofPlace = new Map<number, number>()
  const flag = (place: number, bit: number) => (builder.flags[place] & bit) !== 0
  const sameMinute = (a: number, b: number) =>
    Math.floor(builder.at[a] / 60) === Math.floor(builder.at[b] / 60)
  const sameValue = (a: number, b: number) => {
    const [x, y] = [builder.logged[a], builder.logged[b]]
    const [inMmol, otherInMmol] = [flag(a, FLAG.mmol), flag(b, FLAG.mmol)]
    if (inMmol === otherInMmol && x === y) return true
    if (builder.source[a] === builder.source[b]) return false
    const mgDl = (value: number, mmol: boolean) => (mmol ? value * PER_MMOL : value)
    const at = (value: number, mmol: boolean) => (mmol ? Math.round(value * 10) / 10 : Math.round(value))
    const inUnitOf = (value: number, mmol: boolean, wanted: boolean) =>
      mmol === wanted ? value : wanted ? value / PER_MMOL : mgDl(value, mmol)
    const isCoarse = (value: number, mmol: boolean) => at(value, mmol) === value
    return (
      (isCoarse(y, otherInMmol) && at(inUnitOf(x, inMmol, otherInMmol), otherInMmol) === y) ||
      (isCoarse(x, inMmol) && at(inUnitOf(y, otherInMmol, inMmol), inMmol) === x)
    )
  }
  const same = (a: number, b: number) => {
    const sameLog = builder.source[a] === builder.source[b]
    if (!sameMinute(a, b) || flag(a, FLAG.dayOnly) !== flag(b, FLAG.dayOnly)) return false
    if (flag(a, FLAG.dayOnly) && sameLog) return false
    if (flag(a, FLAG.aboveRange) !== flag(b, FLAG.aboveRange)) return false
    if (flag(a, FLAG.seconds) && flag(b, FLAG.seconds) && builder.at[a] !== builder.at[b]) return false
    if (flag(a, FLAG.offset) && flag(b, FLAG.offset) && builder.offset[a] !== builder.offset[b]) return false
    const [one, other] = [a, b].map((place) => builder.meters.values[builder.meter[place]])
    return (one === '' || other === '' || one === other) && sameValue(a, b)
  }
  for (const place of places) {
    const log = builder.source[place]
    const before = places.slice(0, place)
    const repeated = before.find((other) => builder.source[other] === log && same(other, place))
    const standsFor = (other: number) =>
      found.some(({ place: one, of }) => of === other && builder.source[one] === log)
    const of =
      repeated === undefined
        ? before.find(
            (other) =>
              builder.source[other] !== log && !ofPlace.has(other) && !standsFor(other) && same(other, place),
          )
        : (ofPlace.get(repeated) ?? repeated)
    if (of === undefined) continue
    ofPlace.set(place, of)
    found.push({ place, of })
  }
  return found
}

function byPlace(a: { place: number }, b: { place: number }): number {
  return a.place - b.place
}

describe('readings that stand in the logs twice', () => {
  it.each([
    ['compared each with each', Infinity],
    ['looked up by what they have in common', 0],
  ])('are those of the definition, %s', (_, few) => {
    fc.assert(
      fc.property(rows, (of) => {
        const builder = built(of)
        const found = findDuplicates(builder, builder.inOrder(), new Uint8Array(builder.n), few)
        expect([...found].sort(byPlace)).toEqual(byDefinition(builder))
      }),
      { seed: 11, numRuns: 2000 },
    )
  })

  /** How often the columns are looked into. */
  function lookedAt(n: number, rowOf: (i: number) => Partial<Row>): number {
    const plain = {
      source: 0,
      second: null,
      offset: null,
      meter: '',
      value: 100,
      unit: 'mg/dL',
      marker: 0,
    } as const
    const builder = built(Array.from({ length: n }, (_, i) => ({ ...plain, dayOnly: false, ...rowOf(i) })))
    let count = 0
    const order = builder.inOrder()
    builder.logged = new Proxy(builder.logged, {
      get(column, key) {
        count++
        return Reflect.get(column, key) as unknown
      },
    })
    findDuplicates(builder, order, new Uint8Array(builder.n))
    return count
  }

  it.each<[string, (i: number) => Partial<Row>]>([
    ['values', (i) => ({ value: 100 + i / 4096 })],
    ['meters', (i) => ({ meter: `m${i}` })],
    ['meters, some unknown', (i) => ({ meter: i % 2 ? '' : `m${i}`, value: 60 + (i % 400) })],
    ['offsets and seconds', (i) => ({ offset: i % 1400, second: i % 60 })],
    ['equal rows', () => ({})],
    [
      'values that round to one of another log',
      (i) => ({ source: i % 2, value: 100 + (i % 2 ? 0 : i / 8192), meter: `m${i % 9}` }),
    ],
    ['two logs of many meters', (i) => ({ source: i % 2, meter: `m${i >> 1}` })],
  ])('of one minute cost no more for each than in a minute with fewer: %s', (_, rowOf) => {
    const [few, many] = [500, 4000].map((n) => lookedAt(n, rowOf) / n)
    expect(many).toBeLessThan(1.5 * few + 1)
  })
})
