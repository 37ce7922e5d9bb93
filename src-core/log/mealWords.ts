import type { MealMoment } from '../reference/mealMoment'
import { plain } from './words/plain'
import { remembered } from './words/remembered'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.

const BEFORE =
  /\b(before|pre|prior to|ante|vor|vorm|avant|antes|prima|voor|preprandial\w*|praprandial\w*|preprandiaal|pre ?meal)\b/
const AFTER =
  /\b(after|post|nach|nachm|apres|despues|depois|apos|dopo|postprandial\w*|postprandiaal|post ?meal)\b|\bna (het |de |een )?(ontbijt|lunch|middag\w*|avond\w*|diner|maaltijd\w*|eten)/
const NOT = /\b(non|not|nicht|pas|no|nao|niet)\b/

const FASTING =
  /\b(fasting|nuchtern\w*|a jeun|ayunas|ayuno|en ayunas|jejum|digiuno|nuchter|(glucemia|glicemia|glucosa|glucosio|glicose|azucar) basal\w*)\b/
const BREAKFAST =
  /\b(breakfast|fruhstuck\w*|petit dejeuner|petit dej|desayuno|cafe da manha|pequeno almoco|desjejum|colazione|ontbijt)\b/
const LUNCH =
  /\b(lunch|midday meal|mittag\w*|dejeuner|almuerzo|almoco|pranzo|middageten|middagmaal|middagmaaltijd)\b/
const DINNER =
  /\b(dinner|supper|evening meal|abendessen|abendbrot|abendmahlzeit|nachtessen|diner|souper|cena|jantar|avondeten|avondmaaltijd|avondmaal)\b/
const ANY_MEAL =
  /\b(meals?|eating|food|essen|mahlzeit\w*|repas|manger|comidas?|comer|refeicao|refeicoes|pasto|pasti|mangiare|maaltijd\w*|eten)\b|prandi/
const BEDTIME =
  /\b(bedtime|bed time|bed|sleep\w*|schlafen\w*|schlafengehen|zubettgehen|bettzeit|zur nacht|coucher|acostarse|dormir|deitar|dormire|coricarsi|andare a letto|bedtijd|slapen\w*|naar bed)\b/
const NIGHT =
  /\b(overnight|night|nighttime|nocturnal|nacht|nachts|nuit|nocturne|nocturn[oa]|madrugada|notte|notturn[oa])\b|^(de |durante la )?noche$|^(durante a )?noite$/

const MEALS = [
  // 'Petit déjeuner' and 'pequeno almoço' hold the words for lunch.
  { meal: 'breakfast', words: BREAKFAST },
  { meal: 'dinner', words: DINNER },
  { meal: 'lunch', words: LUNCH },
] as const

/**
 * What a meal's tag says; null where it says nothing certain: a meal without before or after, a snack, two
 * meals at once. 'Fasting' is before breakfast.
 */
export function mealMoment(tag: string): MealMoment | null {
  const text = plain(tag)
  if (text === '' || NOT.test(text)) return null
  const before = BEFORE.test(text)
  const after = AFTER.test(text)
  const [named, other] = MEALS.filter(({ words }) => words.test(withoutLonger(text, words)))
  if (other !== undefined) return null
  if (BEDTIME.test(text)) return after && named === undefined ? null : 'bedtime'
  if (FASTING.test(text))
    return after || (named !== undefined && named.meal !== 'breakfast') ? null : 'before-breakfast'
  if (named !== undefined || ANY_MEAL.test(text)) {
    if (before === after) return null
    return `${before ? 'before' : 'after'}-${named?.meal ?? 'meal'}`
  }
  return NIGHT.test(text) && !before && !after ? 'night' : null
}

/** `mealMoment`, for a log's many rows: each tag is read once. */
export function mealMoments(): (tag: string) => MealMoment | null {
  return remembered(mealMoment)
}

/** The text in which lunch is looked for: without the breakfasts whose names hold its word. */
function withoutLonger(text: string, words: RegExp): string {
  return words === LUNCH ? text.replace(/\b(petit dejeuner|pequeno almoco)\b/g, '') : text
}
