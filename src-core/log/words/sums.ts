import { conceptsOf } from './concepts'
import type { Concept } from './lexicon'
import { plain } from './plain'
import { remembered } from './remembered'

// Words by which a row says that it is a mean or a total, not a reading.

/** Longer texts name no sum. */
export const LONGEST_SUM_WORDS = 40
const SUM_CONCEPTS: readonly Concept[] = ['statistic', 'date', 'glucose', 'value', 'partOfDay']
const CONNECTING =
  /^(of|for|the|per|a|daily|weekly|monthly|week|month|today|des|der|tages?|woche|monats|du|de|la|le|semaine|mois|del|semana|mes|do|da|settimana|mese|van|za|z|ze|w|v|dne|denni|dzienna|napi|gunluk|gunun|pro|pr|av|om|dagens|paivan|vuorokauden|diari[ao]|giornalier[ao]|journaliere?|ημερασ|ημερησιοσ|οροσ|day|jour|dia|giorno|dag|dagen|за|день|среднесуточное)$/
/** Short forms of 'mean' that are weekdays or places elsewhere than in a note: Polish, Russian, Turkish; and its sign. */
const SHORT_MEAN = /^(śr|sr|ср|ort|μ\.?\s?ο|ø)\.?$/iu

const speaksOfSums = remembered((word) => SUM_CONCEPTS.some((concept) => conceptsOf(word).has(concept)))

/** A short form beside the time that it is of: 'śr. tyg.', 'Haftalık ort.', 'Wochenschnitt'. */
const MEAN_OF_A_TIME =
  /^(?:(?:haftalik|gunluk|aylik|tyg|dnia|mies|week|dag|tag|woche|monat) (?:ort|sr|gem|gns|mw|avg)|(?:sr|ort|gem|gns|mw|avg) (?:tyg|dnia|mies|haftalik|gunluk|aylik|week|dag|tag|woche|monat)|(?:tages|wochen|monats)?schnitt)$/

/** Whether a text is a short form of the mean of a day, a week or a month. */
export const isMeanOfATime = (text: string): boolean => MEAN_OF_A_TIME.test(plain(text))

/** Whether a note is a mean or a total and nothing else: 'Average of the day', 'Mittelwert', 'Ø'. */
export const isSumNote = remembered((note) => {
  if (SHORT_MEAN.test(note.trim())) return true
  const words = plain(note)
  if (MEAN_OF_A_TIME.test(words)) return true
  if (words === '' || words.length > LONGEST_SUM_WORDS) return false
  // The first word settles most notes.
  return (
    words.split(' ').every((word) => CONNECTING.test(word) || speaksOfSums(word)) &&
    conceptsOf(note).has('statistic')
  )
})

/** Signs and short forms of means and totals, as they stand where a row's date or time should. */
const SHORT_SUM =
  /^(?:ø|∅|⌀|[σ∑]|x\s?[\u0304\u0305]|x̄|avg|mw|mn|durchschn|durchschnittl|mittelw|gem|gns|gjsn|medelv|moy|prom|méd|med|tot|śr|sr|śred|prům|átl|ort|stdabw|std|s|sd|cv|ср|итог|μ\.?\s?ο)\s?[.:=]?$/iu

/** Whether a cell that should hold a date or a time names a mean or a total instead. */
export const standsForSum = remembered(
  (cell) => !/\d/.test(cell) && (SHORT_SUM.test(cell.trim()) || isSumNote(cell)),
)

/** Whether a short note speaks of a mean or a total among other words. */
export const speaksOfSum = remembered(
  (note) =>
    isSumNote(note) ||
    (note.length <= LONGEST_SUM_WORDS &&
      !/\d/.test(note) &&
      (note.trim().startsWith('Ø ') || conceptsOf(note).has('statistic'))),
)

/** 'Average' as an adjective, where it is another word than the noun: Czech, Hungarian, Polish. */
const ADJECTIVE = /^(prumern|atlagos|przecietn)/

/** Whether a note of a mean begins with its name; 'the average day' does not. */
export const startsAsSum = remembered((note) => {
  const words = plain(note)
  if (SHORT_MEAN.test(note.trim()) || /^(daily|weekly|monthly) (average|mean|total|avg)$/.test(words))
    return true
  return !ADJECTIVE.test(words) && conceptsOf(words.split(' ', 1)[0]).has('statistic')
})

/** Whether a note speaks of a mean and of more: 'the average day' may stand beside a reading. */
export const isVagueSum = remembered(
  (note) =>
    conceptsOf(note).has('statistic') &&
    !plain(note)
      .split(' ')
      .every((word) => conceptsOf(word).has('statistic')),
)
