import { describe, expect, it } from 'vitest'
import { mealMoment } from '../../../src-core/log/mealWords'

const TAGS: Readonly<Record<string, readonly string[]>> = {
  'before-breakfast': [
    'before breakfast',
    'Pre-breakfast',
    'Fasting',
    'vor dem Frühstück',
    'nüchtern',
    'avant le petit déjeuner',
    'À jeun',
    'antes del desayuno',
    'en ayunas',
    'antes do pequeno-almoço',
    'antes do café da manhã',
    'em jejum',
    'prima di colazione',
    'a digiuno',
    'voor het ontbijt',
    'nuchter',
  ],
  'after-breakfast': [
    'after breakfast',
    '2 h after breakfast',
    'nach dem Frühstück',
    'après le petit-déjeuner',
    'después del desayuno',
    'após o pequeno almoço',
    'dopo colazione',
    'na het ontbijt',
  ],
  'before-lunch': [
    'BEFORE LUNCH',
    'vor dem Mittagessen',
    'avant le déjeuner',
    'antes del almuerzo',
    'antes do almoço',
    'prima di pranzo',
    'voor de lunch',
  ],
  'after-lunch': [
    'after lunch',
    'nach dem Mittagessen',
    'après déjeuner',
    'después del almuerzo',
    'depois do almoço',
    'dopo pranzo',
    'na de lunch',
  ],
  'before-dinner': [
    'before supper',
    'vor dem Abendessen',
    'avant le dîner',
    'antes de la cena',
    'antes do jantar',
    'prima di cena',
    'voor het avondeten',
  ],
  'after-dinner': [
    'after dinner',
    'nach dem Abendbrot',
    'après le dîner',
    'después de cenar la cena',
    'depois do jantar',
    'dopo cena',
    'na het avondeten',
  ],
  bedtime: [
    'bedtime',
    'before bed',
    'vor dem Schlafen',
    'au coucher',
    'al acostarse',
    'antes de dormir',
    'ao deitar',
    'prima di dormire',
    'voor het slapen',
  ],
  night: ['night', 'nachts', 'la nuit', 'madrugada', 'notte', '’s nachts'],
  'before-meal': ['Before meal', 'vor dem Essen', 'avant le repas', 'antes de la comida', 'prima del pasto'],
  'after-meal': ['after a meal', 'postprandial', 'nach der Mahlzeit', 'após a refeição', 'na de maaltijd'],
}

describe('a meal’s tag', () => {
  it.each(Object.entries(TAGS).flatMap(([moment, tags]) => tags.map((tag) => [tag, moment] as const)))(
    '‘%s’ is %s',
    (tag, moment) => {
      expect(mealMoment(tag)).toBe(moment)
    },
  )

  it.each([
    '',
    'breakfast',
    'lunch',
    'snack',
    'before exercise',
    'not fasting',
    'nicht nüchtern',
    'between breakfast and lunch',
    'after breakfast, before lunch',
    'before or after dinner',
    'after sleeping',
    'na hora do jantar',
  ])('‘%s’ tells nothing certain', (tag) => {
    expect(mealMoment(tag)).toBeNull()
  })
})
