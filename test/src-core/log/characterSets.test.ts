import { describe, expect, it } from 'vitest'
import { guessEncoding } from '../../../src-core/log/guessEncoding'
import { logbookOf, notesOf } from '../../helpers/logs'

// Logs in character sets of one language. Their bytes are made here, from the set's own table of the Encoding Standard.

const encoders = new Map<string, Map<string, readonly number[]>>()

/** The bytes of each character of a set of one or two bytes each. */
function tableOf(label: string): Map<string, readonly number[]> {
  const known = encoders.get(label)
  if (known) return known
  const table = new Map<string, readonly number[]>()
  const add = (bytes: readonly number[]): void => {
    try {
      // A piece of a text: as a whole one Node 20 reads Windows-1252 as ISO 8859-1.
      const text = new TextDecoder(label, { fatal: true }).decode(new Uint8Array(bytes), { stream: true })
      if ([...text].length === 1 && !table.has(text)) table.set(text, bytes)
    } catch {
      // No character has these bytes.
    }
  }
  for (let one = 0; one < 256; one++) add([one])
  for (let one = 129; one < 255; one++) for (let two = 64; two < 255; two++) add([one, two])
  encoders.set(label, table)
  return table
}

function encoded(text: string, label: string): Uint8Array {
  const table = tableOf(label)
  return Uint8Array.from(
    [...text].flatMap((character) => {
      const bytes = table.get(character)
      if (bytes === undefined) throw new Error(`${label} has no ${character}`)
      return bytes
    }),
  )
}

const LOGS: readonly (readonly [label: string, text: string])[] = [
  [
    'windows-1252',
    'Datum;Uhrzeit;Blutzucker (mg/dl);Bemerkung\n11.05.2026;07:06;101;nüchtern\n13.05.2026;18:30;61;nach Frühstück, süß\n',
  ],
  [
    'windows-1252',
    'Date;Heure;Glycémie (mg/dl);Remarque\n11.05.2026;07:06;101;à jeun\n13.05.2026;18:30;61;après le déjeuner, très fatigué\n',
  ],
  [
    'windows-1252',
    'Dato;Tid;Blodsukker (mg/dl);Bemærkning\n11.05.2026;07:06;101;før måltid\n13.05.2026;18:30;61;træt, målt igen\n',
  ],
  [
    'windows-1252',
    'Data;Hora;Glicemia (mg/dl);Observação\n11.05.2026;07:06;101;após o pequeno-almoço\n13.05.2026;18:30;61;não comi\n',
  ],
  [
    'windows-1252',
    'Date;Time;Glucose (mg/dl);Note\n11.05.2026;07:06;101;at the café – felt fine\n13.05.2026;18:30;61;it’s 20°\n',
  ],
  [
    'windows-1250',
    'Data;Godzina;Glikemia (mg/dl);Uwagi\n11.05.2026;07:06;101;przed śniadaniem\n13.05.2026;18:30;61;po kolacji, późno, gorąco\n',
  ],
  [
    'windows-1250',
    'Datum;Čas;Glykémie (mg/dl);Poznámka\n11.05.2026;07:06;101;před večeří\n13.05.2026;18:30;61;po snídani, únava\n',
  ],
  [
    'windows-1250',
    'Dátum;Időpont;Vércukor (mg/dl);Megjegyzés\n11.05.2026;07:06;101;éhgyomri\n13.05.2026;18:30;61;ebéd előtt, fáradt, szűk\n',
  ],
  [
    'iso-8859-2',
    'Data;Godzina;Glikemia (mg/dl);Uwagi\n11.05.2026;07:06;101;przed śniadaniem\n13.05.2026;18:30;61;późno, gorąco, słabość\n',
  ],
  [
    'windows-1254',
    'Tarih;Saat;Kan şekeri (mg/dl);Öğün\n11.05.2026;07:06;101;Açlık\n13.05.2026;18:30;61;Öğle öncesi\n',
  ],
  [
    'windows-1251',
    'Дата;Время;Сахар крови (мг/дл);Примечание\n11.05.2026;07:06;101;до завтрака\n13.05.2026;18:30;61;слабость\n',
  ],
  [
    'koi8-r',
    'Дата;Время;Сахар крови (мг/дл);Примечание\n11.05.2026;07:06;101;до завтрака\n13.05.2026;18:30;61;слабость\n',
  ],
  [
    'ibm866',
    'Дата;Время;Сахар крови (мг/дл);Примечание\n11.05.2026;07:06;101;до завтрака\n13.05.2026;18:30;61;слабость\n',
  ],
  [
    'windows-1253',
    'Ημερομηνία;Ώρα;Σάκχαρο (mg/dl);Σημειώσεις\n11.05.2026;07:06;101;πριν το φαγητό\n13.05.2026;18:30;61;κούραση\n',
  ],
  ['shift_jis', '日付,時刻,血糖値(mg/dL),備考\n2026-05-11,07:06,101,朝食前\n2026-05-13,18:30,61,夕食前\n'],
  ['euc-jp', '日付,時刻,血糖値(mg/dL),備考\n2026-05-11,07:06,101,朝食前\n2026-05-13,18:30,61,夕食前\n'],
  ['gb18030', '日期,时间,血糖(mg/dL),备注\n2026-05-11,07:06,101,早餐前\n2026-05-13,18:30,61,晚餐前\n'],
  ['big5', '日期,時間,血糖(mg/dL),備註\n2026-05-11,07:06,101,早餐前\n2026-05-13,18:30,61,晚餐前\n'],
  ['euc-kr', '날짜,시간,혈당(mg/dL),메모\n2026-05-11,07:06,101,아침\n2026-05-13,18:30,61,저녁\n'],
]

describe('a log that is no UTF-8', () => {
  it.each(LOGS)('is read in %s where its words are words in it', (label, text) => {
    const { sources, readings } = logbookOf([encoded(text, label)])
    expect(sources[0].encoding).toBe(label)
    expect(notesOf(sources[0]).join()).toContain(`guessed: ${label}`)
    expect(sources[0].columns.map(({ header }) => header).join()).toBe(
      text.split('\n')[0].replaceAll(';', ','),
    )
    expect([readings.logged[0], readings.logged[1]]).toEqual([101, 61])
  })

  it('is taken for Windows-1252 where no word tells', () => {
    expect(guessEncoding(encoded('20° at noon – ½ portion', 'windows-1252'))).toBe('windows-1252')
    expect(guessEncoding(encoded('Guðrún, Þór', 'windows-1252'))).toBe('windows-1252')
  })

  it('is told by words that stand far behind its beginning', () => {
    const rows = Array.from(
      { length: 9_000 },
      (_, i) => `${String(2001 + (i % 25))}-05-11;07:${String(10 + (i % 50))};101;\n`,
    )
    const text = `Date;Time;Glucose (mg/dL);Note\n${rows.join('')}2026-05-12;07:06;61;до завтрака, сахар\n`
    expect(logbookOf([encoded(text, 'windows-1251')]).sources[0].encoding).toBe('windows-1251')
  })
})
