import { plain } from '../log/words/plain'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.
const HELP =
  /\b(found (me|him|her|by|uncon\w+|on)|helped|needed help|help from|unconscious|passed out|blacked out|seizure|convuls\w+|paramedic\w*|ambulance|emergency|glucagon|bewusstlos\w*|ohnmacht\w*|ohnmachtig|krampf\w*|notarzt|rettung\w*|krankenwagen|glukagon|geholfen|gefunden|inconscient\w*|evanoui\w*|urgence\w*|samu|convuls\w+|desmay\w+|ambulancia|urgencias|ayudad[oa]|ayudo|encontr\w+|inconsciente|desmai\w+|ajudou|ambulanza|svenut\w*|incosciente|aiutat\w*|bewusteloos|flauwgevallen|geholpen|gevonden)\b/
const NOT = /\b(no|not|without|kein\w*|nicht|ohne|pas|sans|sin|sem|nao|senza|non|geen|niet|zonder)\b/

/** Whether a note tells that somebody else had to help, or that the person could not help himself. */
export function tellsOfHelp(note: string): boolean {
  if (note === '') return false
  const words = plain(note)
  return HELP.test(words) && !NOT.test(words)
}
