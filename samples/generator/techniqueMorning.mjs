import { clock, isoDay, minuteOf } from './calendar.mjs'
import { glucoseCurve } from './glucose.mjs'
import { randomSource } from './random.mjs'
import { scattered } from './stories.mjs'
import { table } from './table.mjs'
import { testedReadings, USUAL_SHARES } from './testing.mjs'

const SEED = 20_261_704
const FROM = minuteOf('2026-02-09')
const DAYS = 9
const KITCHEN = 'kitchen meter'
const BAG = 'bag meter'

const KEEPER = {
  level: 123,
  dawnRise: 0.12,
  daySd: 0.09,
  swingSd: 0.12,
  meals: [
    { name: 'breakfast', at: 425, rise: 0.36, riseSd: 0.14, carrySd: 0.12 },
    { name: 'lunch', at: 765, rise: 0.3, riseSd: 0.14, carrySd: 0.13 },
    { name: 'dinner', at: 1130, rise: 0.34, riseSd: 0.15, carrySd: 0.13 },
  ],
}

/** Saturday, three hours after breakfast: one thing changed at a time, a washed test after each. */
const TRIAL = {
  day: '2026-02-14',
  time: '10:06',
  reach: 128,
  meter: KITCHEN,
  note: 'trial: hands washed and dried, first test',
  then: [
    { after: 2, note: 'trial: washed and dried, second test' },
    { after: 4, note: 'trial: washed and dried, third test' },
    { after: 8, note: 'trial: orange juice on the finger, not washed', off: 1.5 },
    { after: 11, note: 'trial: washed and dried again' },
    { after: 14, note: 'trial: finger left wet', off: 0.91 },
    { after: 17, note: 'trial: washed and dried again' },
    { after: 20, note: 'trial: finger squeezed hard', off: 0.95 },
    { after: 23, note: 'trial: second meter, washed and dried', meter: BAG },
    { after: 26, note: 'trial: washed and dried again, last test' },
  ],
}

const DAY_NOTES = ['visitors on the tower', 'supply boat, late meal', 'feeling well', 'fog signal all night']

/** A week around a morning of trials, 9 to 17 February 2026; tab, one ISO time column with seconds, mg/dL. */
export function techniqueMorning() {
  const random = randomSource(SEED)
  const curve = glucoseCurve(random, FROM, DAYS, () => KEEPER)
  const tags = ['before breakfast', 'before dinner', 'bedtime']
  const repeats = scattered(random, { from: FROM, days: DAYS, count: 5, tags, stories: [TRIAL] }, () => ({
    meter: KITCHEN,
    then: [{ after: random.whole(1, 4) }],
  }))
  const readings = testedReadings(random, curve, [TRIAL, ...repeats], {
    shares: USUAL_SHARES,
    meters: { [KITCHEN]: 1, [BAG]: 1.06 },
    meterFor: (tag) => (random.chance(tag.endsWith('lunch') ? 0.5 : 0.1) ? BAG : KITCHEN),
    noteFor: () => (random.chance(0.06) ? random.pick(DAY_NOTES) : ''),
    repeatChance: () => 0,
  })
  return table(
    ['Timestamp', 'Glucose (mg/dL)', 'Meter', 'Note'],
    readings.map(({ at, mgDl, meter, note }) => [
      `${isoDay(at)}T${clock(at)}:${String(random.whole(0, 59)).padStart(2, '0')}`,
      String(Math.round(mgDl)),
      meter,
      note,
    ]),
    { delimiter: '\t' },
  )
}
