import { describe, expect, it } from 'vitest'
import { FLAG } from '../../../src-core/log/readings'
import { contradictions } from '../../../src-core/technique/reasons/contradictedByRepeat'
import type { GlucoseUnit } from '../../../src-core/units/glucose'
import { reasonsTold } from '../../../src-core/told/reasons'
import { briefReasonsText, reasonsText } from '../../../src-core/wording/english/reasons'
import { readingsOf, row, type RowParts } from '../analysis/readingsOf'

/** The sentence for the reading `index` of two tests; the log is in the unit printed. */
function sentence(
  tests: readonly [string, number, RowParts?][],
  index: number,
  unit: GlucoseUnit = 'mg/dL',
): string {
  const readings = readingsOf(
    tests.map(([time, value, parts]) => row(`2026-03-08 ${time}`, value, { unit, ...parts })),
  )
  const reason = contradictions(
    readings,
    tests.map((_, i) => i),
  )[index]
  if (reason === null) throw new Error('the tests agree')
  return reasonsText(reasonsTold([reason], readings, index), readings, unit)
}

describe('a reading that a repeat contradicts', () => {
  it('is told with both tests, the time between, the difference and what the standard allows', () => {
    // 0.15 sqrt(255^2 + 109^2) + 2 x 1 = 43.6: the limits of ISO 15197:2013 for both, 2 mg/dL a minute.
    expect(
      sentence(
        [
          ['15:48', 255],
          ['15:49', 109],
        ],
        0,
      ),
    ).toBe('255, then 109 one minute later: they differ by 146. The meter standard would allow ±44 here.')
    expect(
      sentence(
        [
          ['15:48', 255],
          ['15:49', 109],
        ],
        1,
      ),
    ).toContain('255, then 109 one minute later: they differ by 146.')
  })

  it('is told in mmol/L with one decimal', () => {
    // 146 mg/dL are 8.1 mmol/L, 43.6 are 2.4.
    expect(
      sentence(
        [
          ['15:48', 14.2],
          ['15:49', 6.1],
        ],
        0,
        'mmol/L',
      ),
    ).toBe('14.2, then 6.1 one minute later: they differ by 8.1. The meter standard would allow ±2.4 here.')
  })

  it('never says ‘at most’ of what the standard allows, and names a least difference beside a marker', () => {
    const text = sentence(
      [
        ['15:48', 600, { flags: FLAG.aboveRange }],
        ['15:49', 109],
      ],
      0,
    )
    expect(text).toContain('HI, then 109 one minute later: they differ by at least 491.')
    expect(text).not.toContain('at most')
  })
})

describe('a low and a higher recheck', () => {
  const tests: [string, number][] = [
    ['07:10', 62],
    ['07:13', 109],
  ]

  it('cannot both be right, and the recheck is the likelier liar', () => {
    expect(sentence(tests, 0)).toBe(
      '62, then 109 three minutes later. They cannot both be right. If sugar was eaten or touched in between, ' +
        'the 109 may be the wrong one. Counted as a low. They differ by 47. The meter standard would allow ±28 here.',
    )
  })

  it('read the same from the recheck’s side, with the low still counted', () => {
    expect(sentence(tests, 1)).toBe(
      '62, then 109 three minutes later. They cannot both be right. If sugar was eaten or touched in between, ' +
        'the 109 may be the wrong one. The 62 is counted as a low. They differ by 47. The meter standard ' +
        'would allow ±28 here.',
    )
  })

  it('are low either way where both are: only how low is in doubt, and no test is called wrong', () => {
    const both: [string, number, RowParts?][] = [
      ['07:10', 20, { flags: FLAG.belowRange }],
      ['07:14', 56],
    ]
    for (const index of [0, 1]) {
      expect(sentence(both, index)).toBe(
        'LO, then 56 four minutes later. Both tests are low, so it was low either way; only how low is in doubt. ' +
          'Both are counted as lows. They differ by at least 36. The meter standard would allow ±29 here.',
      )
    }
  })

  it('name one minute and none in words', () => {
    const later = (time: string) =>
      sentence(
        [
          ['07:10', 62],
          [time, 109],
        ],
        0,
      )
    expect(later('07:11')).toContain('109 one minute later.')
    expect(later('07:10')).toContain('109 within the same minute.')
  })

  it('are told as LO, not as the number that it stands for', () => {
    expect(
      sentence(
        [
          ['07:10', 20, { flags: FLAG.belowRange }],
          ['07:13', 109],
        ],
        0,
      ),
    ).toMatch(/^LO, then 109 three minutes later\./)
  })

  it('keep the low counted where it came second', () => {
    const text = sentence(
      [
        ['07:10', 109],
        ['07:13', 62],
      ],
      1,
    )
    expect(text).toMatch(/^109, then 62 three minutes later: they differ by 47\./)
    expect(text).toMatch(/Counted as a low\.$/)
  })
})

describe('the same in few words', () => {
  it('keeps both tests, the time, the difference and what the standard allows', () => {
    const readings = readingsOf([row('2026-03-08 15:48', 255), row('2026-03-08 15:49', 109)])
    const [reason] = contradictions(readings, [0, 1])
    expect(reason && briefReasonsText(reasonsTold([reason], readings, 0), readings, 'mg/dL')).toBe(
      '255, then 109 one minute later: 146 apart, ±44 allowed.',
    )
  })

  it('keeps that a low is counted and that the other may be the wrong one', () => {
    const readings = readingsOf([row('2026-03-08 12:00', 62), row('2026-03-08 12:03', 109)])
    const [reason] = contradictions(readings, [0, 1])
    const text = reason && briefReasonsText(reasonsTold([reason], readings, 0), readings, 'mg/dL')
    expect(text).toContain('They cannot both be right.')
    expect(text).toContain('the 109 may be the wrong one. Counted as a low.')
  })
})
