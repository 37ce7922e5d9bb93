import { describe, expect, it } from 'vitest'
import type { Kit } from '../../../src-core/kit/kit'
import { pageDocument } from '../../../src-core/report/pageDocument'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

/** All texts of the report in order. */
function textsWith(kit: Kit): string {
  const document = pageDocument(ENGLISH, analysisOf(inventedLog({ days: 30 }), { kit }), {
    paper: 'A4',
    label: null,
    madeAt: parseIsoDay('2026-07-01') ?? 0,
    programVersion: '1.0.0',
  })
  const texts: string[] = []
  JSON.stringify(document, (key, value: unknown) => {
    if (typeof value === 'string' && key !== 'svg') texts.push(value)
    return value
  })
  return texts.join('\n')
}

const beforeLows = (text: string) => text.slice(0, text.indexOf('Lows first'))

describe('what the person told', () => {
  it('takes no room where nothing was told', () => {
    expect(textsWith({})).not.toContain('For the visit')
    expect(textsWith({ questions: [], strips: [] })).not.toContain('For the visit')
  })

  it('stands on page 1 where it can hide a low', () => {
    expect(beforeLows(textsWith({ medicines: [{ name: 'icodextrin' }] }))).toContain(
      'Confirm today that this strip is safe',
    )
  })

  it('stands on page 1 with what changed, what can cause lows, the A1C and the first question alone', () => {
    const first = beforeLows(
      textsWith({
        changes: ['a new meter'],
        canCauseLows: false,
        laboratoryA1c: [{ date: '2026-01-20', percent: 7.1 }],
        questions: ['Is the morning too high?', 'And the evening?'],
      }),
    )
    for (const text of ['a new meter.', 'can cause lows: no', 'Is the morning too high?'])
      expect(first).toContain(text)
    expect(first).toMatch(/7\.1\s% \(54/)
    expect(first).not.toContain('And the evening?')
  })

  it('says which control results lie outside their range, and which vial was used too long', () => {
    const text = textsWith({
      controls: [
        { date: '2026-01-05', result: 144, range: [96, 144], unit: 'mg/dL' },
        { date: '2026-01-06', result: 8.1, range: [5.4, 8], unit: 'mmol/L' },
      ],
      strips: [{ expires: '2026-01-31', opened: '2025-12-01', finished: '2026-02-10', daysOnceOpen: 30 }],
    })
    expect(text).toContain('inside its range (96 to 144)')
    expect(text).toContain('outside its range (5.4 to 8)')
    expect(text).toContain('used after it expired on 31 January')
    expect(text).toContain('open for 71 days (the leaflet allows 30)')
  })

  it('tells how far a meter’s clock is off, and names meters that no log has', () => {
    const text = textsWith({
      clocks: [
        { meter: 'meter A', shown: '2026-01-05T00:03', true: '2026-01-04T23:58' },
        { meter: 'blue meter', shown: '2026-01-05T08:00', true: '2026-01-05T08:00' },
      ],
    })
    expect(text).toContain('Meter A showed 00:03 at 23:58 on 4 January: 5\u00A0min fast.')
    expect(text).toContain('No log has ‘blue meter’')
  })

  it('dates it with the year once that is another year than the log’s', () => {
    const told = (date: string) => textsWith({ laboratoryA1c: [{ date, percent: 7.1 }] })
    expect(beforeLows(told('2020-01-20'))).toContain('20 January 2020')
    expect(beforeLows(told('2026-01-20'))).not.toContain('20 January 2026')
    expect(textsWith({ strips: [{ expires: '2025-01-31' }] })).toContain('31 January 2025')
  })
})
