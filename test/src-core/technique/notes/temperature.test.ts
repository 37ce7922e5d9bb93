import { describe, expect, it } from 'vitest'
import { temperatureIn } from '../../../../src-core/technique/notes/temperature'

describe('a temperature told beside a reading', () => {
  it.each([
    ['5 °C', 5],
    ['-2°C', -2],
    ['−3 °C', -3],
    ['meter at 8C', 8],
    ['Messgerät bei 4,5 °C', 4.5],
    ['41 °F', 5],
    ['Temperature (°C) 6', 6],
    ['Temperature (°F) 50', 10],
    ['Temperatur 5 °C', 5],
    ['strips left at 45 °C', 45],
    ['meter 41 °C', 41],
  ])('‘%s’ is %s °C', (note, celsius) => {
    expect(temperatureIn(note)).toBeCloseTo(celsius, 10)
  })

  it.each([
    'fever 38.5 °C',
    '38,5 °C',
    'Fieber 41 °C',
    'ski trip, -5 °C outside',
    '10:30 C',
    'vitamin C',
    '5 g',
    '',
    '101 °F',
    'Temperature (°C) 38',
  ])('‘%s’ tells none of the meter', (note) => {
    expect(temperatureIn(note)).toBeNull()
  })
})
