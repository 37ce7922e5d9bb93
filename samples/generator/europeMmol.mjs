import { clock, isoDay, minuteOf } from './calendar.mjs'
import { glucoseCurve } from './glucose.mjs'
import { randomSource } from './random.mjs'
import { scattered } from './stories.mjs'
import { table } from './table.mjs'
import { testedReadings, USUAL_SHARES } from './testing.mjs'

const SEED = 20_251_521
const FROM = minuteOf('2025-11-01')
const DAYS = 60
const METER = 'the only meter'
const MG_PER_DL_IN_ONE_MMOL_PER_L = 18.0156

const KEEPER = {
  level: 126,
  dawnRise: 0.15,
  daySd: 0.12,
  swingSd: 0.14,
  meals: [
    { name: 'breakfast', at: 445, rise: 0.38, riseSd: 0.15, carrySd: 0.15 },
    { name: 'lunch', at: 750, rise: 0.34, riseSd: 0.15, carrySd: 0.15 },
    { name: 'dinner', at: 1110, rise: 0.34, riseSd: 0.16, carrySd: 0.15 },
  ],
}

const STORIES = [
  // Sugar on the finger: three repeated, one not.
  {
    day: '2025-11-09',
    tag: 'before breakfast',
    off: 1.7,
    note: 'Honigbrot geschmiert, Hände nicht gewaschen',
    then: [{ after: 3, note: 'Hände gewaschen' }],
  },
  { day: '2025-11-22', tag: 'after dinner', off: 1.6, then: [{ after: 4 }] },
  {
    day: '2025-12-06',
    tag: 'before lunch',
    off: 1.9,
    note: 'Äpfel geschält',
    then: [{ after: 3, note: 'nach dem Waschen' }, { after: 6 }],
  },
  { day: '2025-12-14', tag: 'bedtime', off: 1.5, note: 'Plätzchen gebacken' },
  { day: '2025-11-28', tag: 'before breakfast', off: 0.85, note: 'kühle Finger, sehr wenig Blut' },
  // Lows, each with sugar and another test.
  {
    day: '2025-11-17',
    time: '15:22',
    reach: 58,
    note: 'zittrig nach vielen Treppen',
    treat: true,
    then: [{ after: 15 }],
  },
  {
    day: '2025-12-03',
    time: '16:34',
    reach: 52,
    note: 'Boot aus dem Wasser gezogen; müde',
    treat: true,
    then: [{ after: 8 }, { after: 24, note: 'wieder gut' }],
  },
  {
    day: '2025-12-20',
    time: '02:41',
    tag: 'night',
    reach: 59,
    note: 'aufgewacht, Saft getrunken',
    treat: true,
    then: [{ after: 17 }],
  },
]

const MORNING_NOTES = ['Nebelhorn die ganze Nacht', 'früh auf, Lampe geprüft', 'gut geschlafen']
const DAY_NOTES = [
  'große Portion Grünkohl',
  'Gäste auf dem Turm',
  'später gegessen',
  'Spaziergang über die Mole',
  'Rettungsübung',
]

const MEALS = {
  '': '',
  night: 'nachts',
  'before breakfast': 'vor dem Frühstück',
  'after breakfast': 'nach dem Frühstück',
  'before lunch': 'vor dem Mittagessen',
  'after lunch': 'nach dem Mittagessen',
  'before dinner': 'vor dem Abendessen',
  'after dinner': 'nach dem Abendessen',
  bedtime: 'vor dem Schlafen',
}

/** One meter from 1 November to 30 December 2025; semicolon, dotted dates, mmol/L with decimal comma, German. */
export function europeMmol() {
  const random = randomSource(SEED)
  const curve = glucoseCurve(random, FROM, DAYS, () => KEEPER)
  const tags = ['before breakfast', 'before dinner', 'bedtime']
  const repeats = scattered(random, { from: FROM, days: DAYS, count: 6, tags, stories: STORIES }, () => ({
    then: [{ after: random.whole(1, 5) }],
  }))
  const readings = testedReadings(random, curve, [...STORIES, ...repeats], {
    shares: USUAL_SHARES,
    meters: { [METER]: 1 },
    meterFor: () => METER,
    noteFor: (tag) =>
      random.chance(0.07) ? random.pick(tag === 'before breakfast' ? MORNING_NOTES : DAY_NOTES) : '',
    repeatChance: (mgDl) => (mgDl > 235 || mgDl < 80 ? 0.3 : 0),
  })
  return table(
    ['Datum', 'Uhrzeit', 'Blutzucker (mmol/L)', 'Mahlzeit', 'Bemerkung'],
    readings.map(({ at, mgDl, tag, note }) => [
      isoDay(at).split('-').reverse().join('.'),
      clock(at),
      (mgDl / MG_PER_DL_IN_ONE_MMOL_PER_L).toFixed(1).replace('.', ','),
      MEALS[tag],
      note,
    ]),
    { delimiter: ';', newline: '\r\n', byteOrderMark: true },
  )
}
