import { describe, expect, it } from 'vitest'
import { logbookOf } from '../../helpers/logs'

/** The notes of a log whose rows have the cells given beside date and value. */
function notesOf(headers: string, ...rows: readonly string[]): readonly string[] {
  const lines = rows.map((cells, i) => `2026-03-0${i + 1} 07:00,${120 + i},${cells}`)
  const { readings } = logbookOf([`Date,Glucose (mg/dL),${headers}\n${lines.join('\n')}\n`])
  return Array.from({ length: readings.n }, (_, i) => readings.note(i))
}

describe('columns of tags', () => {
  it.each(['Tags', 'Flags', 'Flag', 'Markierung', 'Étiquettes', 'Etiquetas', 'Labels'])(
    '‘%s’ joins the note',
    (header) => {
      expect(notesOf(`${header},Notes`, 'wet,before work', 'juice,', ',late')).toEqual([
        'before work; wet',
        'juice',
        'late',
      ])
    },
  )

  it('of temperature keep the name that holds the degrees', () => {
    expect(notesOf('Temperature (°C),Note', '6,at the lake', ',')).toEqual([
      'at the lake; Temperature (°C) 6',
      '',
    ])
  })

  it('leave a German column of days one of days', () => {
    const { readings } = logbookOf(['Tag,Uhrzeit,Blutzucker (mg/dL)\n2026-03-01,07:00,120\n'])
    expect(readings.n).toBe(1)
    expect(readings.note(0)).toBe('')
  })

  it('that say control solution set the row aside', () => {
    const { sources } = logbookOf([
      'Date,Glucose (mg/dL),Tags\n2026-03-01 07:00,120,\n2026-03-02 07:00,118,control solution\n2026-03-03 07:00,50,control\n',
    ])
    expect(sources[0].setAside.map(({ line, reason }) => [line, reason])).toEqual([
      [3, 'control-solution'],
      [4, 'control-solution'],
    ])
  })

  it('are passed over where a person names the note’s column', () => {
    const { readings } = logbookOf(['Date,Glucose (mg/dL),Tags,Text\n2026-03-01 07:00,120,wet,late\n'], {
      columns: 'note=Text',
    })
    expect(readings.note(0)).toBe('late')
  })
})
