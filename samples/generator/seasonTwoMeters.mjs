import { clock, isoDay, minuteOf } from './calendar.mjs'
import { glucoseCurve } from './glucose.mjs'
import { randomSource } from './random.mjs'
import { scattered } from './stories.mjs'
import { table } from './table.mjs'
import { testedReadings, USUAL_SHARES } from './testing.mjs'

const SEED = 20_260_478
const FROM = minuteOf('2026-03-02')
const DAYS = 90
const KITCHEN = 'kitchen meter'
const BAG = 'bag meter'

const KEEPER = {
  level: 123,
  dawnRise: 0.12,
  daySd: 0.1,
  swingSd: 0.125,
  meals: [
    { name: 'breakfast', at: 430, rise: 0.37, riseSd: 0.15, carrySd: 0.15 },
    { name: 'lunch', at: 765, rise: 0.3, riseSd: 0.15, carrySd: 0.14 },
    { name: 'dinner', at: 1130, rise: 0.36, riseSd: 0.17, carrySd: 0.14 },
  ],
}

/** Sugar on the finger at the first test, then one or two washed ones. */
const SUGAR_ON_THE_FINGER = [
  { day: '2026-03-08', tag: 'before breakfast', off: 1.65, meter: KITCHEN, then: [{ after: 3 }] },
  {
    day: '2026-03-21',
    tag: 'after dinner',
    off: 1.95,
    meter: KITCHEN,
    then: [{ after: 2, note: 'washed, tested again' }, { after: 5 }],
  },
  { day: '2026-04-01', tag: 'before lunch', off: 1.8, meter: BAG, then: [{ after: 4 }] },
  {
    day: '2026-04-17',
    tag: 'before dinner',
    off: 2.2,
    meter: KITCHEN,
    note: 'peeled figs for the tart',
    then: [{ after: 3, note: 'hands washed' }],
  },
  {
    day: '2026-05-09',
    time: '13:58',
    tag: 'after lunch',
    reach: 150,
    off: 1.75,
    meter: BAG,
    note: 'apricot bun on the jetty',
    then: [{ after: 6, note: 'rinsed hands in the boathouse' }],
  },
  {
    day: '2026-05-24',
    tag: 'before breakfast',
    off: 1.5,
    meter: KITCHEN,
    then: [{ after: 2 }, { after: 4 }],
  },
  {
    day: '2026-05-12',
    time: '10:14',
    reach: 178,
    show: 'HI',
    meter: KITCHEN,
    note: 'boiling rhubarb jam',
    then: [{ after: 4, note: 'washed with soap' }],
  },
]

const OTHER_FAULTS = [
  // A wet finger that fakes a low, and the dry ones after it.
  {
    day: '2026-03-26',
    time: '12:22',
    tag: 'before lunch',
    reach: 97,
    off: 0.66,
    meter: BAG,
    note: 'rain, finger still wet',
    then: [{ after: 3, note: 'dried well' }, { after: 6 }],
  },
  // Nobody repeated these: three with a note, two without a word.
  {
    day: '2026-03-13',
    tag: 'before lunch',
    off: 1.55,
    meter: BAG,
    note: 'peeled an orange, no water at hand',
  },
  { day: '2026-04-24', tag: 'before dinner', off: 0.86, meter: BAG, note: 'spray, finger not quite dry' },
  {
    day: '2026-05-17',
    tag: 'before breakfast',
    off: 0.89,
    meter: KITCHEN,
    note: 'cold hands, squeezed hard',
  },
  { day: '2026-04-08', tag: 'after lunch', off: 1.7, meter: BAG },
  { day: '2026-05-21', tag: 'bedtime', off: 1.45, meter: KITCHEN },
]

const LOWS = [
  {
    day: '2026-03-19',
    time: '16:42',
    reach: 60,
    meter: KITCHEN,
    note: 'shaky after hauling the boat up',
    treat: true,
    then: [{ after: 15 }],
  },
  {
    day: '2026-04-02',
    time: '17:05',
    reach: 52,
    meter: BAG,
    note: 'rowed to the buoy and back',
    treat: true,
    then: [{ after: 8 }, { after: 24, note: 'better' }],
  },
  // The recheck carries sugar from the tablets and hides that the low goes on.
  {
    day: '2026-04-14',
    time: '16:21',
    reach: 58,
    meter: KITCHEN,
    note: 'painted the gallery rail all afternoon',
    then: [
      { after: 4, off: 1.95, note: 'just had three glucose tablets' },
      { after: 9, note: 'hands washed', treat: true },
      { after: 27 },
    ],
  },
  // Hardly any blood: the strip shows LO, the next one the low itself.
  {
    day: '2026-04-22',
    time: '03:18',
    tag: 'night',
    reach: 56,
    show: 'LO',
    meter: KITCHEN,
    note: 'hardly any blood on the strip',
    then: [{ after: 2, note: 'glass of juice', treat: true }, { after: 18 }],
  },
  {
    day: '2026-04-28',
    time: '17:31',
    reach: 48,
    meter: BAG,
    note: 'twice up the tower',
    treat: true,
    then: [{ after: 16 }],
  },
  { day: '2026-05-09', time: '16:55', reach: 58, meter: BAG, treat: true, then: [{ after: 14 }] },
  // Nobody tested again until the morning.
  { day: '2026-05-20', time: '22:51', tag: 'bedtime', reach: 62, meter: KITCHEN, treat: true },
]

const MORNING_NOTES = [
  'fog signal all night',
  'storm, little sleep',
  'slept well',
  'lamp lenses cleaned at dawn',
]
const DAY_NOTES = [
  'supply boat, late meal',
  'visitors on the tower',
  'long walk along the breakwater',
  'a slice of cake',
  'lamp lenses cleaned',
  'feeling well',
]

/** Rows that are no reading of blood. */
const CONTROL_ROWS = [
  {
    at: minuteOf('2026-03-16', '09:40'),
    shown: '116',
    tag: '',
    meter: KITCHEN,
    note: 'control solution, new vial',
  },
  {
    at: minuteOf('2026-04-20', '09:52'),
    shown: '52',
    tag: '',
    meter: BAG,
    note: 'control solution, low level',
  },
]
const EMPTY_ROW = {
  at: minuteOf('2026-05-04', '15:10'),
  shown: '',
  tag: '',
  meter: BAG,
  note: 'no result, strip error',
}
/** Which row, counted in time, stands twice. */
const DUPLICATED = 200

/** Two meters from 2 March to 30 May 2026; comma, ISO dates, mg/dL. */
export function seasonTwoMeters() {
  const random = randomSource(SEED)
  const curve = glucoseCurve(random, FROM, DAYS, () => KEEPER)
  const stories = [...SUGAR_ON_THE_FINGER, ...OTHER_FAULTS, ...LOWS]
  const scatter = (count, tags, make) =>
    stories.push(...scattered(random, { from: FROM, days: DAYS, count, tags, stories }, make))
  scatter(20, ['before breakfast', 'before lunch', 'before dinner'], () => ({
    meter: KITCHEN,
    then: [{ after: random.whole(1, 4), meter: BAG }],
  }))
  scatter(9, ['before breakfast', 'before dinner', 'bedtime'], () => ({
    meter: KITCHEN,
    then: random.chance(0.3) ? [{ after: 2 }, { after: 4 }] : [{ after: random.whole(1, 5) }],
  }))
  const readings = testedReadings(random, curve, stories, {
    shares: USUAL_SHARES,
    meters: { [KITCHEN]: 1, [BAG]: 1.06 },
    meterFor: (tag) => (random.chance(tag.endsWith('lunch') ? 0.6 : 0.1) ? BAG : KITCHEN),
    noteFor: (tag) =>
      random.chance(0.06) ? random.pick(tag === 'before breakfast' ? MORNING_NOTES : DAY_NOTES) : '',
    repeatChance: (mgDl) => (mgDl > 215 || mgDl < 80 ? 0.35 : 0),
  })
  const shown = readings.map((reading) => ({
    ...reading,
    shown: reading.show ?? String(Math.round(reading.mgDl)),
  }))
  shown.splice(DUPLICATED, 0, shown[DUPLICATED])
  const rows = [...shown, ...CONTROL_ROWS, EMPTY_ROW].sort((a, b) => a.at - b.at)
  return table(
    ['Date', 'Time', 'Glucose (mg/dL)', 'Meal', 'Meter', 'Note'],
    rows.map((row) => [isoDay(row.at), clock(row.at), row.shown, row.tag, row.meter, row.note]),
  )
}
