import { plain } from '../log/words/plain'

// Words of English, German, French, Spanish, Portuguese, Italian and Dutch in the form that `plain` gives.
const HELP =
  /\b(found (me|him|her|by|uncon\w+|on)|helped|needed help|help needed|help from|unconscious|passed out|blacked out|seizure|convuls\w+|paramedic\w*|ambulance|emergency|glucagon|bewusstlos\w*|ohnmacht\w*|ohnmachtig|krampf\w*|notarzt|rettung\w*|krankenwagen|glukagon|geholfen|gefunden|inconscient\w*|evanoui\w*|urgence\w*|samu|convuls\w+|desmay\w+|ambulancia|urgencias|ayudad[oa]|ayudo|encontr\w+|inconsciente|desmai\w+|ajudou|ambulanza|svenut\w*|incosciente|aiutat\w*|bewusteloos|flauwgevallen|geholpen|gevonden)\b/
const NOT = /\b(no|not|without|kein\w*|nicht|ohne|pas|sans|sin|sem|nao|senza|non|geen|niet|zonder)\b/

/** Somebody by name of what they are, who gave something: 'wife gave juice', 'Frau gab Saft', 'mi mujer me dio zumo'. */
const GIVEN =
  /\b((wife|husband|partner|mum|mom|mother|dad|father|son|daughter|sister|brother|friend|colleague|neighbou?r|nurse|teacher) (gave|fed)|given by \w+|(frau|mann|partner|partnerin|mutter|vater|sohn|tochter|schwester|bruder|freund|freundin|kolleg\w+|nachbar\w*|lehrer\w*) (gab|(hat|haben)\b.*\bgegeben)|(femme|mari|mere|pere|fils|fille|soeur|frere|amie?|collegue|voisine?) (m ?)?a(vait)? donne|(mujer|esposa|marido|esposo|madre|padre|hij[oa]|herman[oa]|amig[oa]|vecin[oa]) (me )?dio|(moglie|marito|madre|padre|figli[oa]|sorella|fratello|amic[oa]) (mi )?ha dato|(mulher|esposa|marido|mae|pai|filh[oa]|irma|irmao|amig[oa]) (me )?deu|(vrouw|man|moeder|vader|zoon|dochter|zus|broer|vriend\w*|buur\w*) (gaf|heeft\b.*\bgegeven))\b/

/** What was eaten helped, and nobody did. */
const FOOD_HELPED =
  /(?<!\b(with|mit|avec|con|com|met) )\b(juice|sugar|glucose|dextrose|tablets?|sweets|food|eating|saft|\w*zucker|essen|jus|sucre|zumo|azucar|suco|acucar|succo|zucchero|sap|suiker)\b.*\b(helped|geholfen|ayudo|ajudou|aiutat\w*|geholpen)\b/

/** Whether a note tells that somebody else had to help, or that the person could not help himself. */
export function tellsOfHelp(note: string): boolean {
  // A negation holds for its own part of a sentence: 'not feeling well, found by wife'.
  return note
    .split(/[,.;:!?()]/)
    .map(plain)
    .some((part) => (HELP.test(part) || GIVEN.test(part)) && !NOT.test(part) && !FOOD_HELPED.test(part))
}
