import { describe, expect, it } from 'vitest'
import { meterLetters } from '../../../src-core/wording/meterLetters'

describe('names of meters on paper', () => {
  it('are letters in the order given, never a serial number', () => {
    expect(meterLetters(['SN 4711-0815', 'kitchen', '00231'])).toEqual(['meter A', 'meter B', 'meter C'])
  })

  it('leave a meter its letter where it has one already', () => {
    expect(meterLetters(['meter B', '4711', 'meter A', '4712'])).toEqual([
      'meter B',
      'meter C',
      'meter A',
      'meter D',
    ])
  })

  it('do not take a column’s own words for a letter', () => {
    expect(meterLetters(['meter 7', 'Meter A', 'meter a'])).toEqual(['meter A', 'meter B', 'meter C'])
  })

  it('go on after Z and never come twice', () => {
    const names = meterLetters(Array.from({ length: 2000 }, (_, i) => `serial ${i}`))
    expect(names.slice(24, 29)).toEqual(['meter Y', 'meter Z', 'meter AA', 'meter AB', 'meter AC'])
    expect(new Set(names).size).toBe(2000)
  })

  it('of no meter are none', () => {
    expect(meterLetters([])).toEqual([])
  })
})
