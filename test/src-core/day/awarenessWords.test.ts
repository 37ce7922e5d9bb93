import { describe, expect, it } from 'vitest'
import { tellsOfFeelingLow, tellsOfNothingFelt } from '../../../src-core/day/awarenessWords'

describe('a note that a low was felt', () => {
  it.each([
    'felt low',
    'Feeling a bit low, ate',
    'shaky',
    'hypo symptoms',
    'zittrig',
    'fühlte mich unterzuckert',
    'Hypogefühl',
    'sensation d’hypo',
    'tremblements',
    'me sentía bajo',
    'temblores',
    'sintomas de hipo',
    'sentivo basso',
    'voelde me laag',
    'trillerig',
  ])('%s', (note) => {
    expect(tellsOfFeelingLow(note)).toBe(true)
  })

  it.each([
    '',
    'not shaky',
    'didn’t feel low',
    'nicht zittrig',
    'pas de tremblements',
    'sin temblores',
    'niet trillerig',
    'felt high',
    'felt low mood today',
    'protein shake',
    'low carb dinner',
    'juice for a hypo at three',
    'battery low',
    'thirsty',
    'sweaty after a run',
  ])('%s: none', (note) => {
    expect(tellsOfFeelingLow(note)).toBe(false)
  })
})

describe('a note that nothing was felt', () => {
  it.each([
    'no symptoms',
    'No low symptoms at all',
    'did not feel it',
    'didn’t notice anything',
    'couldn’t feel the low',
    'felt fine',
    'asymptomatic',
    'nichts gemerkt',
    'Nicht gespürt!',
    'keine Symptome',
    'pas de symptômes',
    'rien senti',
    'sin síntomas',
    'no noté nada',
    'sem sintomas',
    'não senti nada',
    'senza sintomi',
    'non ho sentito niente',
    'niets gemerkt',
    'geen klachten',
  ])('%s', (note) => {
    expect(tellsOfNothingFelt(note)).toBe(true)
  })

  it.each([
    '',
    'not without symptoms',
    'nicht ohne Symptome',
    'felt low',
    'symptoms: shaky',
    'didn’t feel like eating',
    'did not feel well',
    'nicht gemerkt dass der Streifen alt war',
    'pas senti le besoin de manger',
    'no noté que era tarde',
    'niet gevoeld hoe laat het was',
    'no sugar',
    'nothing eaten',
  ])('%s: none', (note) => {
    expect(tellsOfNothingFelt(note)).toBe(false)
  })
})
