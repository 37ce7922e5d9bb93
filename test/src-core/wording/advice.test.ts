import { describe, expect, it } from 'vitest'
import type { DoubtReason } from '../../../src-core/technique/reasons/reasonTable'
import {
  adviceOn as toldAdviceOn,
  type Contradiction,
  isUsual,
  matchedAdvice,
  type NextTime,
} from '../../../src-core/told/advice'
import { type Advice, adviceText, nextTimeSentence } from '../../../src-core/wording/english/advice'

function advice({ other, ...parts }: Partial<Contradiction> & { readonly other?: string }): Advice {
  const contradiction = {
    mgDl: 216,
    otherMgDl: 109,
    otherIsHigh: other === 'HI',
    otherIsLow: false,
    minutes: 3,
    low: false,
    afterLow: false,
    ...parts,
  }
  const { mgDl, otherMgDl } = contradiction
  return adviceText(matchedAdvice(contradiction), String(mgDl), other ?? String(otherMgDl))
}

/** Of a reading that no repeat contradicts. */
function adviceOn(
  reasons: readonly DoubtReason[],
  reading: { readonly mgDl: number; readonly low: boolean },
) {
  const told = toldAdviceOn(reasons, { ...reading, isHigh: false }, null)
  return told && adviceText(told, String(reading.mgDl), '')
}

describe('advice on a reading that is too high', () => {
  it('weighs the sugar: 107 mg/dL in half a microlitre is half a millionth of a gram', () => {
    const gramsPerLitre = (107 / 1000) * 10
    const litres = 0.5e-6
    const millionthsOfAGram = gramsPerLitre * litres * 1e6
    expect(millionthsOfAGram).toBeCloseTo(0.535, 9)
    expect(nextTimeSentence('mg/dL')).toContain(
      '0.5 millionths of a gram of sugar in a 0.5 µL drop make a reading 107 mg/dL too high',
    )
  })

  it('weighs the same in mmol/L: 5.94 mmol/L x 180.156 g/mol x 0.5 µL', () => {
    expect(5.94e-3 * 180.156 * 0.5e-6 * 1e6).toBeCloseTo(0.535, 3)
    expect(nextTimeSentence('mmol/L')).toContain('in a 0.5 µL drop make a reading 5.9 mmol/L too high')
  })

  it('says that it was gone later, or not there before', () => {
    expect(advice({ minutes: 3 }).fitsBest).toContain('too high, gone 3 min later')
    expect(advice({ minutes: -4 }).fitsBest).toContain('too high, not there 4 min before')
    expect(advice({ minutes: 0 }).fitsBest).toContain('under 1 min before')
  })

  it('says what else it may be', () => {
    const { alsoPossible } = advice({})
    expect(alsoPossible).toContain('the other test read too low')
    expect(alsoPossible).toContain('squeezing (about ±10 %)')
  })
})

describe('advice on a high recheck after a low', () => {
  it('warns that it may hide a low that goes on', () => {
    const { fitsBest, alsoPossible } = advice({ afterLow: true, minutes: -3 })
    expect(fitsBest).toContain('sugar on the finger from treating the low 3 min earlier')
    expect(fitsBest).toContain('A recheck that reads too high can hide a low that is still going on.')
    expect(alsoPossible).toBe('part of it a real rise after the sugar that was taken.')
  })

  it('puts the low before it also where the test that contradicts it came later', () => {
    expect(advice({ afterLow: true, minutes: 4 }).fitsBest).toContain('from treating the low before it')
  })
})

describe('advice on a reading that is too low', () => {
  it('computes the water: from 109 to 62 takes 43 % in the drop', () => {
    // A drop of blood at 109 with a share w of water reads 109 (1 - w).
    expect(109 * (1 - 0.43)).toBeCloseTo(62, 0)
    const text = advice({ mgDl: 62, otherMgDl: 109 }).fitsBest
    expect(text).toContain(
      'For 109 to read as 62, 43 % of the drop would have to be water; a damp finger seldom does that.',
    )
  })

  it('names a strip that did not fill for much water, a wet finger for little', () => {
    expect(advice({ mgDl: 80, otherMgDl: 160 }).fitsBest).toMatch(/^too little blood on the strip/)
    const little = advice({ mgDl: 130, otherMgDl: 170 }).fitsBest
    // 1 - 130/170 = 23.5 %
    expect(little).toMatch(
      /^a finger wet with water or alcohol, .*For 170 to read as 130, 24 % of the drop would have to be water/,
    )
    expect(little).not.toContain('seldom')
  })

  it('knows only a least share of water where the other test was HI', () => {
    expect(advice({ mgDl: 300, otherMgDl: 600, other: 'HI' }).fitsBest).toContain(
      'For HI to read as 300, at least 50 % of the drop would have to be water',
    )
  })
})

describe('advice on a doubtful low', () => {
  it('takes the low for real and the later, higher test for the likelier wrong one', () => {
    const { fitsBest } = advice({ mgDl: 62, otherMgDl: 109, minutes: 3, low: true })
    expect(fitsBest).toBe(
      'a real low; sugar eaten or touched in between may have made the 109 the wrong one. ' +
        'The 62 is counted as a low whatever the doubt.',
    )
    expect(advice({ mgDl: 62, otherMgDl: 109, minutes: -3, low: true }).fitsBest).toMatch(
      /^a real low after a 109 that read too high\./,
    )
  })

  it('doubts only how low it was where the other test is low too', () => {
    for (const [mgDl, otherMgDl] of [
      [65, 30],
      [30, 65],
    ]) {
      const { fitsBest } = advice({ mgDl, otherMgDl, otherIsLow: true, minutes: 3, low: true })
      expect(fitsBest).toBe(
        `a low either way, because the ${otherMgDl} is low too: only how low is in doubt. Both are counted as lows.`,
      )
    }
  })
})

describe('what to do the next time', () => {
  it.each([
    { kind: 'too high', parts: {} },
    { kind: 'too high after a low', parts: { afterLow: true, minutes: -3 } },
    { kind: 'too low', parts: { mgDl: 80, otherMgDl: 160 } },
    { kind: 'a low', parts: { mgDl: 62, low: true } },
  ])('treats by one’s own plan before any test: $kind', ({ parts }) => {
    const { nextTime } = advice(parts)
    expect(nextTime).toMatch(/treat .*as your own plan says/)
    expect(nextTime).toMatch(/wash/)
    expect(nextTime.search(/treat/)).toBeLessThan(nextTime.search(/wash/))
  })

  it('after a low is to wash, then to recheck after 15 minutes (Standards of Care in Diabetes 2024, section 6)', () => {
    for (const parts of [
      { mgDl: 62, low: true },
      { afterLow: true, minutes: -3 },
    ]) {
      expect(advice(parts).nextTime).toMatch(
        /treat .*as your own plan says.*wash.*then recheck after 15 minutes/,
      )
    }
    expect(advice({ mgDl: 62, low: true }).nextTime).toMatch(/Your care team’s plan comes first\.$/)
  })

  it('stands once for all readings; only what goes beyond it is said of one', () => {
    expect(nextTimeSentence('mg/dL')).toMatch(
      /treat it first, as your own plan says.*wash.*an alcohol wipe alone does not/,
    )
    const next = { usual: true, low: true, recheck: false, 'new-vial': false } as const
    for (const [code, said] of Object.entries(next)) expect(isUsual(code as NextTime)).toBe(said)
  })
})

describe('advice by all that speaks against a reading', () => {
  const note = (direction: 'too-high' | 'too-low'): DoubtReason => ({
    code: 'note-tells-of-technique',
    evidence: {
      word: 'x',
      class: direction === 'too-high' ? 'sugar-on-finger' : 'wet-finger',
      direction,
    },
  })
  const control: DoubtReason = {
    code: 'failed-control',
    evidence: {
      failedOn: 20_000,
      passedOn: null,
      side: 'too-high',
      resultMgDl: 160,
      rangeLowMgDl: 100,
      rangeHighMgDl: 140,
      vial: null,
      cause: 0,
    },
  }
  const unlike: DoubtReason = {
    code: 'unlike-neighbours',
    evidence: { expectedLowMgDl: 100, expectedHighMgDl: 160 },
  }
  const high = { mgDl: 255, low: false }
  const low = { mgDl: 62, low: true }

  it('puts the note first, then the equipment, then direction', () => {
    const { fitsBest, alsoPossible } = adviceOn([note('too-high'), control, unlike], high) as Advice
    expect(fitsBest).toBe('food or sugar on the finger, as its note says (reads too high).')
    expect(alsoPossible).toMatch(/^food, sugar or cream on the skin/)
    expect(adviceOn([control, unlike], high)?.fitsBest).toMatch(
      /^strips or meter: the control test reads too high\./,
    )
    expect(adviceOn([unlike], high)?.fitsBest).toMatch(/^food, sugar or cream on the skin/)
    expect(adviceOn([unlike], { ...high, mgDl: 80 })?.fitsBest).toMatch(/^too little blood on the strip/)
  })

  it('passes over a note whose mistake goes the other way', () => {
    expect(adviceOn([note('too-low'), unlike], high)?.fitsBest).not.toContain('note')
  })

  it('takes a low for real whatever the note or the strips', () => {
    for (const reasons of [[note('too-low')], [control], [unlike]]) {
      const { fitsBest, nextTime } = adviceOn(reasons, low) as Advice
      expect(fitsBest).toMatch(/a real low[.:] [Tt]he 62 is counted as a low/)
      expect(nextTime).toMatch(/^treat first/)
    }
    expect(adviceOn([note('too-low')], low)?.fitsBest).toContain('a wet finger, as its note says')
  })

  it('takes a low for a low either way beside another, whatever the note or the strips', () => {
    const beside = {
      ...low,
      mgDl: 30,
      otherMgDl: 62,
      otherIsHigh: false,
      otherIsLow: true,
      minutes: 4,
      afterLow: false,
    }
    for (const [reasons, also] of [
      [[note('too-low')], 'note'],
      [[control], 'failed-control'],
      [[unlike], undefined],
    ] as const) {
      const told = toldAdviceOn(reasons, { ...beside, isHigh: false }, beside)
      expect(told?.fits.code).toBe('low-either-way')
      expect(told?.also?.code).toBe(also)
    }
  })

  it('is none where nothing tells a direction', () => {
    expect(adviceOn([], high)).toBeNull()
  })
})
