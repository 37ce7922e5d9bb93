import { describe, expect, it } from 'vitest'
import { markIn, markOfState, tickedMark, tickMeaning } from '../../../src-core/log/words/rowMarks'
import { momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf } from '../../helpers/logs'

// Rows that a log marks as no reading of the person. Words of nineteen languages from memory.

const DELETED = ['Deleted', 'voided', 'VOID', 'Cancelled by nurse', 'excluded', 'superseded', 'invalid', 'gelöscht', 'storniert', 'ungültig', 'annulée', 'supprimé', 'anulada', 'eliminado', 'excluída', 'cancellata', 'non valido', 'verwijderd', 'ongeldig', 'slettet', 'raderad', 'poistettu', 'usunięty', 'nieważny', 'smazáno', 'törölt', 'silindi', 'İptal edildi', 'διαγραμμένη', 'удалено', '削除', '已删除'] // prettier-ignore
const CONTROL = ['Control solution', 'control check', 'CTL', 'QC', 'Kontrolllösung', 'Solution de contrôle', 'solución de control', 'solução de controle', 'soluzione di controllo', 'controlevloeistof', 'kontrolopløsning', 'kontrollösning', 'kontrolliliuos', 'płyn kontrolny', 'kontrolní roztok', 'kontrolloldat', 'kontrol solüsyonu', 'διάλυμα ελέγχου', 'контрольный раствор', '質控液', 'コントロール液'] // prettier-ignore

/** Six readings of one clock time a day; the third and the fifth are marked. */
function log(header: string, plainCell: string, marked: string): string {
  const cells = [plainCell, plainCell, marked, plainCell, marked, plainCell]
  return `Date,Time,Glucose (mg/dL),${header}\n${cells.map((cell, i) => `2026-03-0${i + 1},07:10,${110 + i},${cell}\n`).join('')}`
}

const valuesOf = (text: string): readonly number[] => {
  const { readings } = logbookOf([text])
  return Array.from({ length: readings.n }, (_, i) => readings.logged[i])
}

const setAside = (text: string): readonly string[] =>
  logbookOf([text]).sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`)

describe('the mark of a row', () => {
  it.each(DELETED)('is known as deleted: %s', (word) => {
    expect(markOfState(word)).toBe('deleted')
    expect(markIn(word)).toBe('deleted')
    expect(setAside(log('Status', 'ok', word))).toEqual(['4 not-glucose', '6 not-glucose'])
    expect(setAside(log('Result type', 'final', word))).toEqual(['4 not-glucose', '6 not-glucose'])
  })

  it.each(CONTROL)('is known as control solution: %s', (word) => {
    expect(markOfState(word)).toBe('control')
    expect(setAside(log('Status', 'ok', word))).toEqual(['4 control-solution', '6 control-solution'])
  })

  it('is none where it is said not to be, nor where something else was removed or replaced', () => {
    for (const words of ['not deleted', 'nicht gelöscht', 'valid', 'ok', 'aktiv', '']) expect(markOfState(words)).toBeNull()
    for (const words of ['pleister vervangen', 'sensor removed', 'felt error in count'])
      expect(markIn(words)).toBeNull()
  }) // prettier-ignore
})

describe('a column of ticks', () => {
  it.each([
    ['deleted_at', '', '2026-03-20 09:00'],
    ['isDeleted', '0', '1'],
    ['Cancelled by', '', 'M. Weber'],
    ['voided_at', '\\N', '2026-03-20'],
    ['Superseded', 'no', 'yes'],
    ['valid', '1', '0'],
    ['is_current', 'true', 'false'],
    ['Use in report', 'Yes', 'No'],
    ['Gültig', 'ja', 'nein'],
  ])('says which rows do not count: %s', (header, plainCell, marked) => {
    expect(setAside(log(header, plainCell, marked))).toEqual(['4 not-glucose', '6 not-glucose'])
  })

  it.each(['Control?', 'is_control', 'QC'])('says which rows are control solution: %s', (header) => {
    expect(setAside(log(header, 'No', 'Yes'))).toEqual(['4 control-solution', '6 control-solution'])
  })

  it('needs its ticks where the header may mean something else', () => {
    expect(setAside(log('Control', 'before visit', 'after visit'))).toEqual([])
    expect(setAside(log('Use', 'no', 'no'))).toEqual([])
    expect(tickMeaning('Glucose')).toBeNull()
    expect(tickedMark('counts', '')).toBeNull()
  })
})

describe('a code', () => {
  const coded = (above: string, below: string): string =>
    `${above}Date,Time,T,mg/dL\n${Array.from({ length: 8 }, (_, i) => `2026-03-0${i + 1},07:10,${i === 3 ? 'C' : 'B'},${110 + ((i * 37) % 60)}\n`).join('')}${below}`

  it('means what a line of the log says that it does, above the table or below it', () => {
    expect(setAside(coded('T: B = blood; C = control solution\n', ''))).toEqual(['6 control-solution'])
    expect(setAside(coded('', '\nB = blood, C = control solution\n'))).toContain('5 control-solution')
    const values = [9, 8.2, 7.4, 11.6, 5.9, 6.3]
    const wide = values.map((value, i) => `2026-03-0${i + 1};07:1${i};1.${i};${value}\n`).join('')
    expect(valuesOf(`G = glucose mmol/L; K = ketones mmol/L\nDate;Time;K;G\n${wide}`)).toEqual(values)
  }) // prettier-ignore

  it('of a single letter that no line explains is asked about', () => {
    expect(refusalsOf(coded('', ''))[0].reason).toMatchObject({ key: 'kinds-unknown', column: 3 })
  })
})

describe('a table whose title says that its rows are no readings', () => {
  const READINGS = `Readings\nDate,Time,Glucose (mg/dL),Note\n${Array.from({ length: 6 }, (_, i) => `2026-03-0${i + 1},07:10,${110 + i},\n`).join('')}`
  it.each([
    ['Deleted readings', 'Date,Time,Glucose (mg/dL),Deleted on\n2026-03-02,09:10,301,2026-03-03\n2026-03-04,09:10,41,2026-03-05\n'],
    ['Control tests', 'Date,Time,Result (mg/dL),Expected range\n2026-03-02,08:00,118,100-135\n2026-03-03,08:00,52,40-60\n'],
    ['Tagesübersicht', 'Datum,Anzahl,Mittel Glukose mg/dl,Min Glukose mg/dl,Max Glukose mg/dl\n2026-03-02,4,155,75,260\n2026-03-03,4,145,71,200\n'],
  ])('gives none: %s', (title, table) => {
    const values = valuesOf(`${READINGS}\n${title}\n${table}`)
    expect(values).toEqual([110, 111, 112, 113, 114, 115])
  }) // prettier-ignore
})

describe('words that have another meaning beside glucose', () => {
  it('basal glucose is fasting glucose, whatever insulin stands beside it', () => {
    for (const name of ['Glucemia basal', 'Glicemia basale', 'Glicemia basal (mg/dL)']) {
      const values = valuesOf(`Fecha;Hora;${name};Insulina basal\n2026-03-01;07:10;110;16\n2026-03-02;07:20;120;17\n`)
      expect(values).toEqual([110, 120])
    }
  }) // prettier-ignore

  it('goals, the value before, changes, extremes and urine are no readings', () => {
    const header = 'When;Target high (mg/dL);Glucose (mg/dL);Previous glucose (mg/dL);Change (mg/dL);Max glucose (mg/dL);Urine glucose (mg/dL)' // prettier-ignore
    const rows = Array.from(
      { length: 6 },
      (_, i) => `2026-03-0${i + 1} 07:10;150;${110 + i};${109 + i};1;180;0`,
    )
    const values = valuesOf([header, ...rows].join('\n'))
    expect(values).toEqual([110, 111, 112, 113, 114, 115])
  })
})

describe('several columns that may all hold readings', () => {
  it('are offered together first, by their own numbers, and keep the time of their line where they are no moments', () => {
    const rows = ['180,,', ',160,', ',,217', '140,,', ',133,', ',,120']
    const text = `Date,Time,Before meal,After meal,No tag,Unit\n${rows.map((cells, i) => `2026-03-0${i + 1},07:10,${cells},mg/dL`).join('\n')}`
    const [refused] = refusalsOf(text)
    expect(refused.question?.choices[0].answer).toMatch(/^glucose=3\|4/)
    const two = 'Date,Time,1st (mg/dL),2nd (mg/dL)\n2026-03-01,07:10,110,118\n2026-03-02,07:20,120,\n'
    const { readings } = logbookOf([two], { columns: 'glucose=3|4' })
    expect(readings.n).toBe(3)
    expect(Array.from({ length: readings.n }, (_, i) => momentText(readings, i))).toEqual([
      '2026-03-01T07:10',
      '2026-03-01T07:10',
      '2026-03-02T07:20',
    ])
  })
})
