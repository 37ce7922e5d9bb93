import { plain } from '../log/words/plain'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.
const ACTIVITY =
  /\b(walk(ed|ing|s)?|hik(e|ed|ing)|run(ning)?|ran|jog(ged|ging)?|swim(ming)?|swam|cycl(ed|ing)|bike|biked|biking|gym|exercis(e|ed|ing)|work ?out|sports?|football|soccer|tennis|rowed|rowing|danced|dancing|yoga|ski(ed|ing)?|gardening|spazier\w*|wander(n|ung|te)|gelaufen|laufen|joggen|schwimmen|geschwommen|radfahren|rad gefahren|fahrrad\w*|turnen|gymnastik|gartenarbeit|bewegung|marche|marche a pied|randonnee|course a pied|couru|natation|nage|velo|gymnastique|caminata|caminar|caminado|paseo|correr|nadar|natacion|bicicleta|gimnasio|ejercicio|deporte|caminhada|corrida|natacao|ginasio|academia|exercicio|desporto|esporte|camminata|passeggiata|corsa|nuoto|nuotato|palestra|ginnastica|esercizio|wandel(en|ing|d)|gewandeld|hardlopen|hardgelopen|zwemmen|gezwommen|fietsen|gefietst|sporten|gesport|tuinieren)\b/
const NOT =
  /\b(no|not|without|instead|skipped|missed|kein\w*|nicht|ohne|pas|sans|sin|sem|nao|senza|non|geen|niet|zonder)\b/
/** What runs or walks without the person. */
const NO_ACTIVITY = /\b(run(ning)? (out|low|late)|ran (out|late)|in the long run|walk ?in|sports? drink)\b/

/** Whether a note or an entry of the log tells of bodily activity. */
export function tellsOfActivity(text: string): boolean {
  if (text === '') return false
  const words = plain(text)
  return ACTIVITY.test(words) && !NOT.test(words) && !NO_ACTIVITY.test(words)
}
