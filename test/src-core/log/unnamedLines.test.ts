import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf, refusalTold } from '../../helpers/logs'

// Lines and columns that carry few words, or none that everybody knows. Each reading is written down first.

function readingsOf({ readings }: Logbook): string[] {
  return Array.from(
    { length: readings.n },
    (_, i) => `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)}`,
  )
}

const read = (lines: readonly string[]): string[] => readingsOf(logbookOf([lines.join('\n')]))
const aside = (lines: readonly string[]): ReadonlySet<string> =>
  new Set(
    logbookOf([lines.join('\n')]).sources[0].setAside.map(
      ({ line, reason, maybeLow }) => `${line} ${reason}${maybeLow ? ' low' : ''}`,
    ),
  )

describe('a line of goals whose first cell is blank', () => {
  const header = 'Date;Breakfast;Lunch;Dinner;Bedtime'
  const rows = ['2026-03-02;104;132;98;120', '2026-03-03;110;;140;']
  const readings = ['104', '110', '120', '132', '140', '98'].map((value) => `${value} mg/dL`)
  const values = (lines: readonly string[]): string[] => read(lines).map((text) => text.slice(11)).sort()

  it.each([
    ['ranges below the header', ';80-130;80-130;80-130;100-140', '2 footer'],
    ['limits below the header', ';<130;<140;<140;<150', '2 footer'],
    ['numbers below the header', ';100;100;100;120', '2 empty-date'],
  ])('costs no reading and is counted: %s', (_, goals, told) => {
    expect(values([header, goals, ...rows])).toEqual(readings)
    expect([...aside([header, goals, ...rows])]).toEqual([told])
  })

  it('is no second breakfast of the day above it', () => {
    const lines = [header, ...rows, ';100;100;100;120']
    expect(values(lines)).toEqual(readings)
    expect([...aside(lines)]).toEqual(['4 empty-date'])
  })
}) // prettier-ignore

describe('doses and other measures in a table whose days run to the right', () => {
  it('are no readings, no units and no possible lows', () => {
    const lines = [
      'Blood glucose mg/dL',
      'Time,02.03.2026,13.03.2026,14.03.2026',
      'Breakfast,104,98,120',
      'Lunch,140,120,61',
      'Basal units,18,18,18',
      'Est. HbA1c,6.4,6.4,6.5',
    ]
    expect(read(lines).sort()).toEqual([
      '2026-03-02 104 mg/dL',
      '2026-03-02 140 mg/dL',
      '2026-03-13 120 mg/dL',
      '2026-03-13 98 mg/dL',
      '2026-03-14 120 mg/dL',
      '2026-03-14 61 mg/dL',
    ])
    expect([...aside(lines)]).toEqual(['5 not-glucose', '6 not-glucose'])
  })
})

describe('BM, the finger-stick test of British wards', () => {
  it('is glucose as a column, before a meal and as a kind of entry', () => {
    const readings = ['2026-03-02T07:10 6.4 mmol/L', '2026-03-03T07:20 8.1 mmol/L']
    expect(read(['Date,Time,BM', '2026-03-02,07:10,6.4', '2026-03-03,07:20,8.1'])).toEqual(readings)
    expect(read(['Date,Time,BM pre meal,Insulin', '2026-03-02,07:10,6.4,4', '2026-03-03,07:20,8.1,4'])).toEqual(readings)
    expect(read(['Date,Time,Type,Value', '2026-03-02,07:10,BM,6.4', '2026-03-02,07:10,Weight,81.4', '2026-03-03,07:20,BM,8.1'])).toEqual(readings)
  }) // prettier-ignore

  it('is no very low glucose where it counts something else', () => {
    const counts = ['1', '2', '1', '1'].map((count, i) => `2026-03-0${i + 1},08:00,${count}`)
    expect(() => read(['Date,Time,BM', ...counts])).toThrow(/unit-unknown|no-glucose-column/)
  })
})

describe('a moment in UTC beside the same by the clock on the wall', () => {
  it.each([
    ['by its name', 'timestamp_utc,local_time,glucose_mg_dl'],
    ['by what the two columns hold, in winter and in summer', 'timestamp,clock,glucose_mg_dl'],
  ])('is not asked about: the wall clock counts, known %s', (_, header) => {
    const rows = ['2026-03-02T06:10:00Z,2026-03-02 07:10,104', '2026-04-03T05:20:00Z,2026-04-03 07:20,68']
    expect(read([header, ...rows])).toEqual(['2026-03-02T07:10 104 mg/dL', '2026-04-03T07:20 68 mg/dL'])
  })
})

describe('a goal among events', () => {
  it('is no reading, though no other kind of event is known for sure', () => {
    const lines = [
      'When;Événement;Résultat (mmol/l)',
      '18/01/2025 3:13;Dextro;6,0',
      '18/01/2025 3:25;Objectif glycémique;7,9',
      '19/01/2025 7:26;Dextro;12,9',
      '19/01/2025 7:45;Mesure;7,2',
      '20/01/2025 7:45;Mesure;8,2',
      '21/01/2025 7:45;Mesure;9,2',
    ]
    const values = read(lines).map((text) => text.split(' ')[1])
    expect(values).not.toContain('7.9')
    expect(values).toContain('12.9')
  })

  it('is seen among others of its kind', () => {
    const lines = ['Horodatage;Événement;Résultat', '18/01/2025 3:13;Xyz en mmol/l;6,0', '18/01/2025 3:25;Objectif glycémique en mmol/l;7,9', '19/01/2025 7:26;Xyz en mmol/l;12,9', '19/01/2025 12:54;Potassium en mmol/l;5,2', '20/01/2025 7:45;Xyz en mmol/l;7,2']
    let accepted: readonly string[] = []
    try {
      accepted = read(lines).map((text) => text.split(' ')[1])
    } catch (error) {
      expect(String(error)).toContain('no-glucose-column')
    }
    expect(accepted).not.toContain('7.9')
    expect(accepted).not.toContain('5.2')
  }) // prettier-ignore
})

describe('a mean in a column of which nobody knows the name', () => {
  it('is no reading where the row has no time among rows with one', () => {
    const lines = [
      'Gün;Saat;Kan şekeri;Xyz',
      '2.2.2026;17:43;148;insülin unutuldu',
      '4.2.2026;06:06;153;pulse 72',
      '14.2.2026;09:44;115;',
      '14.2.2026;;164,0;Ort.',
    ]
    expect(read(lines)).toHaveLength(3)
    expect([...aside(lines)]).toEqual(['5 footer'])
    expect(read(lines.map((line) => line.replace('Xyz', 'Not')))).toHaveLength(3)
  })
})

describe('rows that a status deletes', () => {
  it('are no readings, though another column speaks of a state as well: that of the mood', () => {
    const lines = [
      'Marca de tiempo;Glucemia, mmol/l;Estado de ánimo;Estado',
      '2026-03-02 7:04;7,6;;válido',
      '2026-03-03 22:40;2,6;ok;anulado',
      '2026-03-04 9:43;9,1;ok;válido',
    ]
    const readings = ['2026-03-02T07:04 7.6 mmol/L', '2026-03-04T09:43 9.1 mmol/L']
    expect(read(lines)).toEqual(readings)
    expect([...aside(lines)].map((told) => told.replace(' low', ''))).toEqual(['3 not-glucose'])
    expect(read(lines.map((line) => line.replace('Estado de ánimo', 'State of transfer').replace('Estado', 'Status')))).toEqual(readings)
  }) // prettier-ignore
})

describe('a file that is no table of single values', () => {
  const first = (text: string): readonly (string | number | null)[] => {
    const [refusal] = refusalsOf(text)
    return [refusal.code, refusal.line, refusalTold(refusal)]
  }

  it.each([['110/145'], ['6.4 - 8.1'], ['5,6–7,8']])(
    'is told what is the matter where a cell holds two: %s',
    (pair) => {
      const text = `Date;Time;Glucose\n2026-03-02;07:10;${pair}\n2026-03-03;07:20;${pair}\n`
      expect(first(text).slice(0, 2)).toEqual(['no-readings', 2])
      expect(first(text)[2]).toContain('two values')
      expect(first(text)[2]).not.toContain(pair)
    },
  )

  it('is told what is the matter where blanks part its columns', () => {
    const text = 'Date        Time   Glucose\n2026-03-02  07:10      104\n2026-03-03  07:20       98\n'
    expect(first(text).slice(0, 2)).toEqual(['unreadable-file', 1])
    expect(first(text)[2]).toContain('separated by spaces')
  })
})

describe('hours and minutes in columns of their own', () => {
  it('are the time of the rows, though closing lines stand below few of them', () => {
    const lines = ['Date of test;Hr;Min;Value;Parameter;Unit', '13-Jul-2025;6;31;10.6;Blood glucose;mmol/l', '13-Jul-2025;14;23;3.2;Blood glucose;mmol/l', '13-Jul-2025;14;39;1.0;Ketones;mmol/L', 'Export date;27-Nov-2025;10:01', 'HbA1c;17-Oct-2025;6.9 %']
    expect(read(lines)).toEqual(['2025-07-13T06:31 10.6 mmol/L', '2025-07-13T14:23 3.2 mmol/L'])
  }) // prettier-ignore
})
