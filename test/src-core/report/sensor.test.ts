import { describe, expect, it } from 'vitest'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { pageTexts, pdfOf } from '../../helpers/pages'

/** Days of a sensor: two waves a day about 130, with lows of ten to forty minutes, LO among them, and hours missing. */
function sensor(days: number, step: number): readonly FixtureReading[] {
  const begin = Date.UTC(2026, 2, 2)
  return Array.from({ length: (days * 1440) / step }, (_, i): readonly FixtureReading[] => {
    const minute = i * step
    const at = new Date(begin + minute * 60_000).toISOString().slice(0, 16).replace('T', ' ')
    const day = Math.floor(minute / 1440)
    const ofDay = minute % 1440
    if (day % 4 === 3 && ofDay >= 600 && ofDay < 900) return []
    const wave = 130 + 55 * Math.sin((ofDay / 1440) * 4 * Math.PI) + ((i * 7919) % 23) - 11
    const low = ofDay >= 180 && ofDay < 190 + 5 * (day % 7)
    return [{ at, value: low ? (day % 13 === 5 ? 'LO' : 48 + (day % 20)) : Math.round(wave), sensor: true }]
  }).flat()
}

describe.each([5, 15])('the report of a sensor, a reading every %d minutes', (step) => {
  it.each([1, 14, 25, 30, 35, 90])('of %d days is two sheets of either paper', async (days) => {
    const analysis = analysisOf(sensor(days, step))
    const letter = await pageTexts(await pdfOf(analysis, { paper: 'Letter' }))
    expect(letter).toHaveLength(2)
    expect(letter[0]).toContain('Agreed today')
    const pages = await pageTexts(await pdfOf(analysis))
    expect(pages).toHaveLength(2)
    const [first, behind] = pages
    expect(first).toContain('made for finger-sticks')
    expect(first.indexOf('Lows first')).toBeLessThan(first.indexOf('Time below, in and above range'))
    for (const label of ['Below 54', 'Below 70', 'Time in range 70 to 180', 'Above 180', 'Above 250'])
      expect(first).toContain(label)
    expect(first).toContain('Agreed today')
    expect(behind).toContain('The day in blocks of three hours')
    expect(behind).toContain('From day to day')
    expect(behind).toContain('How it was computed')
    expect(behind).toContain('What these pages cannot tell')
    expect(behind.includes('From the first day to the last')).toBe(days > 1)
    expect(behind).not.toContain('Each low')
  })
})
