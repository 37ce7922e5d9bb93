import { clock, isoDay, minuteOf } from './calendar.mjs'
import { glucoseCurve } from './glucose.mjs'
import { randomSource } from './random.mjs'
import { scattered } from './stories.mjs'
import { table } from './table.mjs'
import { testedReadings, USUAL_SHARES } from './testing.mjs'

const SEED = 20_260_913
const FROM = minuteOf('2026-04-01')
const DAYS_OF_APRIL = 30
const DAYS = 61
const METER = 'the only meter'

const APRIL = {
  level: 133,
  dawnRise: 0.12,
  daySd: 0.1,
  swingSd: 0.13,
  meals: [
    { name: 'breakfast', at: 425, rise: 0.36, riseSd: 0.15, carrySd: 0.14 },
    { name: 'lunch', at: 760, rise: 0.3, riseSd: 0.15, carrySd: 0.14 },
    { name: 'dinner', at: 1125, rise: 0.55, riseSd: 0.17, carrySd: 0.14 },
  ],
}
/** From May on a walk follows dinner. */
const MAY = {
  ...APRIL,
  level: 124,
  meals: [
    APRIL.meals[0],
    APRIL.meals[1],
    { name: 'dinner', at: 1125, rise: 0.28, riseSd: 0.14, carrySd: 0.16 },
  ],
}

const STORIES = [
  // Sugar on the finger, repeated at once.
  { day: '2026-04-16', tag: 'before breakfast', off: 1.7, then: [{ after: 3, note: 'washed hands' }] },
  {
    day: '2026-05-11',
    tag: 'before dinner',
    off: 1.6,
    note: 'shelled peas, peeled a pear',
    then: [{ after: 4 }],
  },
  // Lows: two in April, six in May.
  {
    day: '2026-04-09',
    time: '16:48',
    reach: 60,
    note: 'scraped the boat',
    treat: true,
    then: [{ after: 15 }],
  },
  { day: '2026-04-22', time: '11:52', reach: 62, treat: true, then: [{ after: 16 }] },
  { day: '2026-05-05', time: '22:41', tag: 'bedtime', reach: 59, treat: true, then: [{ after: 15 }] },
  {
    day: '2026-05-08',
    time: '17:12',
    reach: 61,
    note: 'twice up the tower',
    treat: true,
    then: [{ after: 9 }],
  },
  {
    day: '2026-05-13',
    time: '21:44',
    reach: 55,
    note: 'to the end of the breakwater and back',
    treat: true,
    then: [{ after: 14 }],
  },
  {
    day: '2026-05-19',
    time: '00:21',
    tag: 'night',
    reach: 57,
    note: 'woke up',
    treat: true,
    then: [{ after: 17 }],
  },
  { day: '2026-05-23', time: '22:33', tag: 'bedtime', reach: 61, treat: true },
  { day: '2026-05-28', time: '16:39', reach: 58, note: 'hungry', treat: true, then: [{ after: 15 }] },
]

/** April and May 2026 to be compared; comma, month first, 12-hour clock, mg/dL, one meter. */
export function twoMonths() {
  const random = randomSource(SEED)
  const curve = glucoseCurve(random, FROM, DAYS, (day) => (day < DAYS_OF_APRIL ? APRIL : MAY))
  const tags = ['before breakfast', 'before lunch', 'before dinner']
  const repeats = scattered(random, { from: FROM, days: DAYS, count: 6, tags, stories: STORIES }, () => ({
    then: [{ after: random.whole(1, 5) }],
  }))
  const readings = testedReadings(random, curve, [...STORIES, ...repeats], {
    shares: { ...USUAL_SHARES, 'after dinner': 0.85 },
    meters: { [METER]: 1 },
    meterFor: () => METER,
    noteFor: (tag, day) =>
      tag === 'after dinner' && day >= DAYS_OF_APRIL && random.chance(0.4) ? 'walk on the breakwater' : '',
    repeatChance: (mgDl) => (mgDl > 250 || mgDl < 80 ? 0.3 : 0),
  })
  return table(
    ['Date', 'Time', 'Blood glucose (mg/dL)', 'Meal', 'Note'],
    readings.map(({ at, mgDl, tag, note }) => [
      monthFirst(at),
      twelveHourClock(at),
      String(Math.round(mgDl)),
      tag,
      note,
    ]),
  )
}

function monthFirst(at) {
  const [year, month, day] = isoDay(at).split('-')
  return `${month}/${day}/${year}`
}

function twelveHourClock(at) {
  const [hour, minute] = clock(at).split(':')
  return `${Number(hour) % 12 || 12}:${minute} ${Number(hour) < 12 ? 'AM' : 'PM'}`
}
