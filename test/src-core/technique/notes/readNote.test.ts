import { describe, expect, it } from 'vitest'
import { readNote } from '../../../../src-core/technique/notes/readNote'

const classesOf = (note: string, inTrial = false) =>
  readNote(note, inTrial).faults.map((fault) => fault.class)

describe('mistakes that a note tells of', () => {
  it.each([
    ['juice on finger', 'sugar-on-finger'],
    ['orange juice on the finger, not washed', 'sugar-on-finger'],
    ['sticky fingers', 'sugar-on-finger'],
    ['after peeling an orange', 'sugar-on-finger'],
    ['honey on hands', 'sugar-on-finger'],
    ['touched glucose tablets', 'sugar-on-finger'],
    ['Glucosetabletten angefasst', 'sugar-on-finger'],
    ['pastilla de glucosa en los dedos', 'sugar-on-finger'],
    ['Saft am Finger', 'sugar-on-finger'],
    ['Orangensaft an den Händen', 'sugar-on-finger'],
    ['Orange geschält', 'sugar-on-finger'],
    ['jus sur le doigt', 'sugar-on-finger'],
    ["j'avais du miel sur les doigts", 'sugar-on-finger'],
    ['zumo en el dedo', 'sugar-on-finger'],
    ['suco no dedo', 'sugar-on-finger'],
    ['succo sulle dita', 'sugar-on-finger'],
    ['sap op de vinger', 'sugar-on-finger'],
    ['handled fruit', 'sugar-on-finger'],
    ['food on hands', 'sugar-on-finger'],
    ['without washing hands', 'unwashed-hands'],
    ['unwashed', 'unwashed-hands'],
    ['hands NOT washed', 'unwashed-hands'],
    ["didn't wash my hands", 'unwashed-hands'],
    ['forgot to wash hands', 'unwashed-hands'],
    ['no time to wash', 'unwashed-hands'],
    ['dirty hands', 'unwashed-hands'],
    ['Hände nicht gewaschen', 'unwashed-hands'],
    ['Händewaschen vergessen', 'unwashed-hands'],
    ['ungewaschene Finger', 'unwashed-hands'],
    ['schmutzige Hände', 'unwashed-hands'],
    ['mains non lavées', 'unwashed-hands'],
    ['mains pas lavées', 'unwashed-hands'],
    ['mains sales', 'unwashed-hands'],
    ['manos sin lavar', 'unwashed-hands'],
    ['no me lavé las manos', 'unwashed-hands'],
    ['mãos não lavadas', 'unwashed-hands'],
    ['mani non lavate', 'unwashed-hands'],
    ['handen niet gewassen', 'unwashed-hands'],
    ['hand lotion', 'lotion-on-skin'],
    ['Handcreme', 'lotion-on-skin'],
    ['cream on hands', 'lotion-on-skin'],
    ['crème sur les mains', 'lotion-on-skin'],
    ['crema de manos', 'lotion-on-skin'],
    ['wet', 'wet-finger'],
    ['Wet finger', 'wet-finger'],
    ['finger left wet', 'wet-finger'],
    ['washed, not dried', 'wet-finger'],
    ['washed but still wet', 'wet-finger'],
    ['sweaty hands', 'wet-finger'],
    ['NASSE Finger', 'wet-finger'],
    ['nicht abgetrocknet', 'wet-finger'],
    ['doigt mouillé', 'wet-finger'],
    ['dedo mojado', 'wet-finger'],
    ['dedo molhado', 'wet-finger'],
    ['dito bagnato', 'wet-finger'],
    ['natte vinger', 'wet-finger'],
    ['alcohol wipe still wet', 'alcohol-wet'],
    ['alcohol swab', 'alcohol-wipe-only'],
    ['small drop', 'small-drop'],
    ['not enough blood', 'small-drop'],
    ['too little blood', 'small-drop'],
    ['strip not filled', 'small-drop'],
    ['hardly any blood on the strip', 'small-drop'],
    ['kaum Blut am Streifen', 'small-drop'],
    ['kleiner Tropfen', 'small-drop'],
    ['zu wenig Blut', 'small-drop'],
    ['petite goutte', 'small-drop'],
    ['pas assez de sang', 'small-drop'],
    ['peu de sang', 'small-drop'],
    ['gota pequeña', 'small-drop'],
    ['poca sangre', 'small-drop'],
    ['pouco sangue', 'small-drop'],
    ['goccia piccola', 'small-drop'],
    ['te weinig bloed', 'small-drop'],
    ['squeezed hard', 'squeezed-finger'],
    ['had to squeeze', 'squeezed-finger'],
    ['milked the finger', 'squeezed-finger'],
    ['Finger gequetscht', 'squeezed-finger'],
    ['doigt pressé', 'squeezed-finger'],
    ['dedo apretado', 'squeezed-finger'],
    ['cold hands', 'cold-hands'],
    ['Kalte Finger', 'cold-hands'],
    ['mains froides', 'cold-hands'],
    ['koude handen', 'cold-hands'],
    ['expired strip', 'expired-strip'],
    ['strips out of date', 'expired-strip'],
    ['abgelaufene Streifen', 'expired-strip'],
    ['bandelette périmée', 'expired-strip'],
    ['shallow prick', 'shallow-prick'],
    ['meter was cold', 'cold-meter'],
    ['strips left in the hot car', 'hot-meter'],
  ] as const)('‘%s’: %s', (note, name) => {
    expect(classesOf(note)).toContain(name)
  })

  it('have a direction and the note’s own words', () => {
    const { faults } = readNote('at work; Orange JUICE on the finger, not washed')
    expect(faults).toEqual([
      { class: 'sugar-on-finger', direction: 'too-high', word: 'Orange JUICE on the finger' },
      { class: 'unwashed-hands', direction: 'too-high', word: 'not washed' },
    ])
    expect(readNote('finger left wet').faults[0].direction).toBe('too-low')
    expect(readNote('squeezed').faults[0].direction).toBe('either')
  })
})

describe('what is no mistake', () => {
  it.each([
    'washed and dried',
    'hands washed',
    'Hände gewaschen',
    'clean dry hands',
    'dry hands',
    'not wet',
    'not wet or dirty',
    'kein Saft',
    'kein Saft am Finger',
    'no juice or sugar on finger',
    'keine nassen Finger',
    'sans sucre',
    'sin azúcar en los dedos',
    'ohne Creme',
    // Sugar that was eaten treats a low.
    'drank juice',
    'had juice',
    'juice for low',
    '3 dextrose',
    '3 dextrose tablets',
    'ate glucose tablets',
    'glucose high on right finger',
    'Traubenzucker',
    'Saft getrunken',
    'bu un jus',
    'honey and toast',
    'fruit salad',
    'freshly squeezed orange juice',
    'jus pressé',
    'ice cream',
    'finger food',
    'washed off the lotion',
    'no hand cream',
    'coffee with cream',
    'crème brûlée',
    // Other uses of the words.
    'finger stick sugar high',
    'blood sugar high on finger stick',
    'fingerstick',
    'small drop in blood sugar',
    'had a cold',
    'wet weather',
    'humid day',
    'alcohol last night',
    'pressed for time',
    'Blutzucker am Finger gemessen',
    'washed hands after fruit',
    'fruit, then washed my hands',
    'Kontrolle',
    'before dinner',
    'milked the cows',
    'supply boat, late meal',
    '💉 ok',
    '',
  ])('‘%s’', (note) => {
    expect(classesOf(note)).toEqual([])
  })

  it.each([
    ['retest', 'repeat'],
    ['tested again', 'repeat'],
    ['nochmal', 'repeat'],
    ['second meter', 'second-meter'],
    ['anderes Messgerät', 'second-meter'],
    ['other finger', 'other-finger'],
    ['autre doigt', 'other-finger'],
    ['andere vinger', 'other-finger'],
  ] as const)('‘%s’ is told apart as %s', (note, context) => {
    const telling = readNote(note)
    expect(telling.faults).toEqual([])
    expect(telling.contexts).toEqual([context])
  })

  it('says whether hands were washed', () => {
    expect(readNote('trial: hands washed and dried').washed).toBe(true)
    expect(readNote('mains lavées').washed).toBe(true)
    expect(readNote('not washed').washed).toBe(false)
  })
})

describe('in a trial', () => {
  it.each([
    ['juice', 'sugar-on-finger'],
    ['apple', 'sugar-on-finger'],
    ['trial: cream', 'lotion-on-skin'],
    ['alcohol', 'alcohol-wipe-only'],
    ['cold', 'cold-hands'],
  ] as const)('a bare ‘%s’ is the condition', (note, name) => {
    expect(classesOf(note)).toEqual([])
    expect(classesOf(note, true)).toEqual([name])
  })

  it('what was drunk is still none', () => {
    expect(classesOf('drank juice', true)).toEqual([])
  })
})

describe('any note', () => {
  it('is read whole: what stands at the end of 10,000 characters counts', () => {
    expect(classesOf(`${'nothing special here '.repeat(500)}. wet finger`)).toContain('wet-finger')
  })

  it.each([
    'not '.repeat(2_500),
    'a'.repeat(10_000),
    "'’".repeat(5_000),
    '\ud800'.repeat(10_000),
    'e\u0301'.repeat(5_000),
  ])('of hostile text is read to its end', (note) => {
    expect(classesOf(note)).toEqual([])
  })

  it('is read whatever its case and however its accents are coded', () => {
    expect(classesOf('DOIGT MOUILLÉ')).toEqual(['wet-finger'])
    expect(classesOf('doigt mouille\u0301')).toEqual(['wet-finger'])
    expect(classesOf('ｗｅｔ　ｆｉｎｇｅｒ')).toEqual(['wet-finger'])
  })
})
