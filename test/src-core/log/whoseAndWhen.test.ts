import { describe, expect, it } from 'vitest'
import { momentText } from '../../../src-core/log/readings'
import type { LogAnswers } from '../../../src-core/log/logSource'
import { logbookOf, refusalsOf } from '../../helpers/logs'

// Logs whose words tell of whom, of when and of what their readings are, as schools, wards and notebooks write them.

const VALUES = [114, 162, 98, 203, 131, 87, 176, 142]

/** Eight readings, two a day from 2 March 2026; `row`: how a line is written. */
function lines(row: (day: number, hour: string, value: number, i: number) => string): string {
  return VALUES.map((value, i) => row(2 + Math.floor(i / 2), i % 2 === 0 ? '07' : '18', value, i)).join('\n')
}

function read(text: string, answers?: Partial<LogAnswers>) {
  const { readings, sources } = logbookOf([text], answers)
  return {
    moments: Array.from({ length: readings.n }, (_, i) => momentText(readings, i)),
    values: Array.from({ length: readings.n }, (_, i) => readings.logged[i]),
    meters: Array.from({ length: readings.n }, (_, i) => readings.meters[readings.meter[i]]),
    notes: sources[0].notes.map(({ code }) => code),
    setAside: sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`),
  }
}

describe('times in universal time by a word', () => {
  const plain = (day: number, hour: string, value: number) => `2026-03-0${day},${hour}:10,${value}`
  it.each([
    ['the header', `Date,Time (UTC),mg/dL\n${lines(plain)}`],
    ['a line above', `All times are UTC\nDate,Time,mg/dL\n${lines(plain)}`],
    [
      'a column of zones',
      `Date,Time,mg/dL,Zone\n${lines((...row) => `${plain(row[0], row[1], row[2])},UTC`)}`,
    ],
  ])('are shown in the zone of the person, which is told: %s', (_, text) => {
    const { moments, notes } = read(text)
    // Berlin is an hour ahead of universal time in March (IANA time zones).
    expect(moments.slice(0, 2)).toEqual(['2026-03-02T08:10', '2026-03-02T19:10'])
    expect(notes).toContain('instants')
  })

  it('stay as they are where a column of the wall clock stands beside, or an offset is named', () => {
    const both = `Local time,UTC time,mg/dL\n${lines((day, hour, value) => `2026-03-0${day} ${hour}:10,2026-03-0${day} 05:10,${value}`)}`
    expect(read(both).moments[0]).toBe('2026-03-02T07:10')
    expect(read(`Time (UTC+01:00),mg/dL\n${lines((day, hour, value) => `2026-03-0${day} ${hour}:10,${value}`)}`).moments[0]).toBe('2026-03-02T07:10')
  }) // prettier-ignore
})

describe('several people', () => {
  it.each(['Student', 'Pupil', 'Schüler/in', 'Élève', 'Child', 'Initials of child tested', 'Bed'])('are asked about: %s', (header) => {
    const names = header === 'Bed' ? ['12A', '14B', '15A'] : ['Ann M', 'Bo R', 'Cy L']
    const text = `Date,Time,${header},Glucose mg/dL\n${lines((day, hour, value, i) => `2026-03-0${day},${hour}:10,${names[i % 3]},${value}`)}`
    expect(refusalsOf(text)[0].reason.key).toBe('several-people')
  }) // prettier-ignore

  it('are asked about below headings that say whose table follows, whatever they name them by', () => {
    const table = `Date,Time,mg/dL\n${lines((day, hour, value) => `2026-03-0${day},${hour}:10,${value}`)}`
    const [refused] = refusalsOf(`Resident: Room 12\n${table}\n\nResident: Room 14\n${table}\n`)
    expect(refused.reason.key).toBe('several-names')
  })

  it('are none where the names are kinds of entry', () => {
    const text = `Observed,Name,Value,Unit\n${lines((day, hour, value, i) => `2026-03-0${day} ${hour}:10,${i % 4 === 3 ? 'Potassium' : 'Capillary glucose'},${i % 4 === 3 ? 4.1 : value},${i % 4 === 3 ? 'mmol/L' : 'mg/dL'}`)}`
    expect(read(text).values).toEqual(VALUES.filter((_, i) => i % 4 !== 3))
  })
})

describe('what was done about a reading', () => {
  it.each(['What I did', 'what I did next', 'Treatment given', 'Maßnahme', 'Seen by'])('sets none aside: %s', (header) => {
    const done = header === 'Seen by' ? ['KM', 'BS'] : ['insulin 3 units', 'water', '4 oz juice', 'walk, 30 min']
    const text = `Date,Time,BG (mg/dL),${header}\n${lines((day, hour, value, i) => `2026-03-0${day},${hour}:10,${value},"${done[i % done.length]}"`)}`
    expect(read(text).values).toEqual(VALUES)
  }) // prettier-ignore
})

describe('a value that stands in a log twice', () => {
  it('counts once where a calculator of doses was given it a minute later', () => {
    const text = `Time,BG (mg/dL),Calculator BG input (mg/dL)\n${lines((day, hour, value) => `2026-03-0${day} ${hour}:10,${value},\n2026-03-0${day} ${hour}:11,,${value}`)}`
    expect(read(text).values).toEqual(VALUES)
  })

  it('is the finger-stick’s where the laboratory’s stands beside it', () => {
    const text = `Date;Time;Laboratory plasma glucose mg/dL;Fingerstick mg/dL\n${lines((day, hour, value, i) => `2026-03-0${day};${hour}:10;${i % 2 ? value + 9 : ''};${value}`)}`
    expect(read(text).values).toEqual(VALUES)
  })

  it('goes where a journal of changes deletes it, and stays where it was added once more', () => {
    const row = (change: string, value: number) => `${change};2026-03-20 07:35;${value};mg/dL`
    const rows = [row('ADD', 114), row('ADD', 52), row('DELETE', 52), row('ADD', 163), row('DELETE', 163), row('ADD', 163)]
    expect(read(`Action;Taken;Glucose;Unit\n${rows.join('\n')}`).values).toEqual([114, 163])
  }) // prettier-ignore

  it('is of two meters where the columns of a line name two', () => {
    const text = `Time of test,Old meter mg/dL,New meter mg/dL\n${lines((day, hour, value) => `2026-03-0${day} ${hour}:10,${value},${value}`)}`
    const { values, meters } = read(text, { columns: 'glucose=2|3' })
    expect(values).toHaveLength(2 * VALUES.length)
    expect([...new Set(meters)].sort()).toEqual(['New meter', 'Old meter'])
  })
})

describe('a field in quotes that holds a row', () => {
  it('is broken there, which is told with its line', () => {
    const text = 'date;time;mg/dL;note\n2026-03-02;06:58;213;\n2026-03-03;07:21;138;"old page:\n2026-02-04;15:10;57;x"\n2026-03-03;12:20;193;\n'
    expect(read(text).values).toContain(57)
    expect(read(text).notes).toEqual(['quotes-broken'])
  }) // prettier-ignore

  it('is one where its inner lines are none', () => {
    const text = 'date;time;mg/dL;note\n2026-03-02;06:58;213;\n2026-03-03;07:21;138;"felt shaky\nthen ate"\n2026-03-03;12:20;193;\n'
    expect(read(text)).toMatchObject({ values: [213, 138, 193], notes: [] })
  }) // prettier-ignore
})

describe('a grid a week', () => {
  it.each(['Time', 'Week'])('is read in each of its weeks, whatever stands once above the first: %s', (corner) => {
    const grid = (week: number, first: number) => `${corner === 'Week' ? `Week ${week}` : corner},${[0, 1, 2].map((day) => `2026-03-${first + day}`).join(',')}\n07:00,${110 + week},121,132\n12:00,143,154,${50 + week}\n`
    const { values, setAside } = read(`Blood sugar in mg/dL\n${grid(1, 16)}\n${grid(2, 23)}`)
    expect(values).toEqual([111, 143, 121, 154, 132, 51, 112, 143, 121, 154, 132, 52])
    expect(setAside).toEqual([])
  }) // prettier-ignore
})

describe('dates that run on day after day', () => {
  it('are asked about all the same: both orders run on', () => {
    const text = `Date,Time,mg/dL\n${lines((day, hour, value) => `0${day}/03/2026,${hour}:10,${value}`)}`
    expect(refusalsOf(text)[0].reason.key).toBe('date-order')
  })
})

describe('how somebody felt', () => {
  it.each(['How I felt', 'huom', 'Mood', 'Other'])('sets no reading aside, a low least of all: %s', (header) => {
    const felt = ['feeling low', 'huono olo', 'average', 'good', 'total', 'count']
    const text = `Date,Time,Glucose (mg/dL),${header}\n${lines((day, hour, value, i) => `2026-03-0${day},${hour}:10,${i === 2 ? 55 : value},${felt[i % felt.length]}`)}`
    expect(read(text).values).toEqual(VALUES.map((value, i) => (i === 2 ? 55 : value)))
  }) // prettier-ignore

  it('leaves the daily mean a closing line, and tells of one that may be a low', () => {
    const text = `Date,Time,Glucose (mg/dL),Note\n${lines((day, hour, value) => `2026-03-0${day},${hour}:10,${value},`)}\n2026-03-05,23:59,65,Daily average\n`
    const [{ setAside }] = logbookOf([text]).sources
    expect(setAside).toMatchObject([{ line: 10, reason: 'footer', maybeLow: true }])
  })
})

describe('a clock time beside the name of a meal', () => {
  it('is the time of the readings below, the meal stays theirs', () => {
    const rows = [2, 3, 4, 5].map((day, i) => `2026-03-0${day};6.${i};8.${i};7.${i}`)
    const { readings } = logbookOf([`Datum;nuchter (07:30);na ontbijt (10:00);voor lunch 12:00\n${rows.join('\n')}\n`], { unit: 'mmol/L' })
    expect(momentText(readings, 0)).toBe('2026-03-02T07:30')
    expect(momentText(readings, 2)).toBe('2026-03-02T12:00')
    expect(readings.meal(1)).toContain('na ontbijt')
  }) // prettier-ignore
})

describe('a time of its own before each of several values', () => {
  it.each([
    ['BG arrival', 'BG pre-lunch', 'BG dismissal'],
    ['arrival', 'pre-lunch', 'dismissal'],
  ])('is that value’s, whatever the columns are called: %s', (...names) => {
    const header = `Date,${names.map((name, i) => `${i === 0 ? 'Time in' : 'Time'},${name}`).join(',')}`
    const rows = [2, 3, 4, 5].map((day, i) => `2026-03-0${day},8:1${i} am,13${i},11:4${i} am,16${i},2:4${i} pm,12${i}`)
    const { readings } = logbookOf([`${header}\n${rows.join('\n')}\n`], { columns: 'glucose=3|5|7', unit: 'mg/dL' })
    expect([0, 1, 2].map((i) => momentText(readings, i).slice(11))).toEqual(['08:10', '11:40', '14:40'])
  }) // prettier-ignore
})

describe('a meal of a name that nobody knows beside others that are known', () => {
  it('is in one of the answers that are offered, with all of them', () => {
    const rows = [[112, 140, 155, 101], [98, 128, 171, 64], [105, 133, 149, 88]]
    const text = `Day,Zorbl,Lunch (13:00),Supper 18:30,Bed\n${rows.map((cells, i) => `2026-11-0${2 + i},${cells.join(',')}`).join('\n')}\n`
    expect(refusalsOf(text)[0].question?.choices.map(({ answer }) => answer)).toContain('glucose=2|3|4|5')
  }) // prettier-ignore
})

describe('hours across', () => {
  it('have noon among them', () => {
    const rows = [2, 3, 4, 5].map((day, i) => `2026-03-0${day},11${i},14${i},12${i},13${i}`)
    const { readings } = logbookOf([`Date,7 am,Noon,6 pm,10 pm\n${rows.join('\n')}\n`], { unit: 'mg/dL' })
    expect([0, 1, 2, 3].map((i) => momentText(readings, i).slice(11))).toEqual(['07:00', '12:00', '18:00', '22:00'])
  }) // prettier-ignore
})

describe('glucose of a sensor beside that of a strip', () => {
  it.each(['Automatic', 'Historic', 'Background', 'Scanned'])('is none of the finger-stick’s: %s', (name) => {
    const text = `Time,${name} glucose (mg/dL),Strip glucose (mg/dL)\n${lines((day, hour, value, i) => `2026-03-0${day} ${hour}:10,${i % 4 === 0 ? '' : value},${i % 4 === 0 ? value : ''}`)}`
    expect(read(text).values).toEqual(VALUES.filter((_, i) => i % 4 === 0))
  }) // prettier-ignore
})

describe('a goal in a line above a table', () => {
  it('leaves the table what its header says', () => {
    const text = `Target range: 6-12 mmol/L\nDate,Time,Blood glucose\n${lines((day, hour, value) => `2026-03-0${day},${hour}:10,${(value / 18).toFixed(1)}`)}`
    expect(read(text).values).toHaveLength(VALUES.length)
  })
})
