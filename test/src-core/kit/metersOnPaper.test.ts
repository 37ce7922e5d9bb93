import { describe, expect, it } from 'vitest'
import { metersOnPaper } from '../../../src-core/kit/metersOnPaper'

describe('names of meters on paper', () => {
  it('are their own where these are short words, else letters in the order given: never a serial number', () => {
    expect(metersOnPaper(['SN 4711-0815', 'kitchen', '00231', 'Küche 2', 'x'.repeat(40)])).toEqual([
      'meter A', 'kitchen', 'meter B', 'Küche 2', 'meter C',
    ]) // prettier-ignore
    expect(metersOnPaper(['Bag', 'bag'])).toEqual(['meter A', 'meter B'])
  })

  it('leave a meter its letter where it has one already', () => {
    expect(metersOnPaper(['meter B', '4711', 'meter A', '4712'])).toEqual([
      'meter B',
      'meter C',
      'meter A',
      'meter D',
    ])
  })

  it('do not take a column’s own words for a letter', () => {
    expect(metersOnPaper(['meter 7', 'Meter A', 'meter a'])).toEqual(['meter 7', 'meter A', 'meter B'])
  })

  it('go on after Z and never come twice', () => {
    const names = metersOnPaper(Array.from({ length: 2000 }, (_, i) => `serial ${i + 100}`))
    expect(names.slice(24, 29)).toEqual(['meter Y', 'meter Z', 'meter AA', 'meter AB', 'meter AC'])
    expect(new Set(names).size).toBe(2000)
  })

  it('of no meter are none', () => {
    expect(metersOnPaper([])).toEqual([])
  })
})
