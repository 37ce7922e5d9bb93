import { conceptsOf, LONGEST_NAME } from './concepts'
import { isControlKind } from './control'
import { headerWords } from './headerRole'
import { plain } from './plain'
import { remembered } from './remembered'

const BLOOD_TEST =
  /^(blood|blut|sang|sangre|sangue|bloed|blod|veri|krew|krwi|krev|krve|ver|kan|capillary|kapillar\w*|capillaire|capilar|capillare|finger\w*|sticks?|pricks?|strips?|teststreifen|tiras?|bandelettes?|strisce|teststrips?|lancet|smbg|bms?|αιμα|кровь|крови)$/
/** Words that may stand beside those for blood: articles, tests, results, calibrations. */
const BESIDE_BLOOD =
  /^(of|in|the|a|from|im|aus|de|du|del|della|di|no|en|i|w|v|ve|test\w*|check\w*|sample\w*|cal|calib\w*|kalib\w*|calibra\w*|\d+)$/
const BESIDE_CONCEPTS = ['value', 'measured', 'manual', 'meter', 'kind'] as const

/** Whether every word is one for blood or the finger, or may stand beside it: 'blood ketones' is another measure. */
function isBloodTest(words: string): boolean {
  const each = words.split(' ')
  return (
    each.some((word) => BLOOD_TEST.test(word)) &&
    each.every(
      (word) =>
        BLOOD_TEST.test(word) ||
        BESIDE_BLOOD.test(word) ||
        BESIDE_CONCEPTS.some((concept) => conceptsOf(word).has(concept)),
    )
  )
}

/** 'After exercise', 'vor dem Sport': a reading's tag, not an entry of its own. */
const RELATIVE =
  /^(before|after|pre|post|vor|nach|avant|apres|antes|despues|depois|prima|dopo|voor|na|fore|efter|for|etter|ennen|jalkeen|przed|po|pred|elott|utan|once|sonra)\b/

/** What a kind of entry means. */
export type KindMeaning = 'glucose' | 'sensor' | 'control' | 'other' | 'moment' | 'unknown'

/** What a kind of entry means: 'Blood glucose', 'Weight', 'Glucose tablets', 'Control', 'fasting', '48'. */
export function kindMeaning(text: string): KindMeaning {
  return meaningOf(text.slice(0, LONGEST_NAME))
}

const meaningOf = remembered((kind): KindMeaning => {
  if (isControlKind(kind)) return 'control'
  const words = plain(kind)
  if (words === '') return 'unknown'
  const told = headerWords(kind)
  if (RELATIVE.test(words)) return told.glucose === 3 ? 'glucose' : 'moment'
  if (told.against !== null) return 'other'
  if (told.glucose === 3) return told.sensor ? 'sensor' : 'glucose'
  if (conceptsOf(kind).has('sensor')) return 'sensor'
  if (isBloodTest(words)) return 'glucose'
  if (
    told.role === 'insulin' ||
    told.role === 'carbohydrate' ||
    told.role === 'event' ||
    told.role === 'note'
  )
    return 'other'
  return told.moment ? 'moment' : 'unknown'
})
