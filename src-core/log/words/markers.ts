import { plain } from './plain'

// Words for the limits of a meter, and what may follow a number.

const ABOVE =
  /^0*(hi|h|high|hoch|zu hoch|haut|eleve|alto|alta|hoog|too high|above range|over range|trop haut|muy alto|muito alto|troppo alto|te hoog|hoj|hog|hoyt|for hoj|for hog|korkea|liian korkea|wysoki\w*|za wysoki\w*|vysok\w*|prilis vysok\w*|magas|tul magas|yuksek|cok yuksek|υψηλ\p{L}*|высок\p{L}*|выше|高|過高|过高|偏高)$/u
const BELOW =
  /^0*(lo|l|low|niedrig|tief|zu niedrig|zu tief|bas|bajo|baja|baixo|baixa|basso|bassa|laag|too low|below range|under range|trop bas|muy bajo|muito baixo|troppo basso|te laag|lav|lavt|for lav|lag|lagt|for lag|matala|liian matala|niski\w*|za niski\w*|nizk\w*|prilis nizk\w*|alacsony|tul alacsony|dusuk|cok dusuk|χαμηλ\p{L}*|низк\p{L}*|ниже|低|過低|过低|偏低)$/u

/** Which limit of the meter a word stands for, in the form `plain` gives; null for any other word. */
export function markerSide(word: string): 'above' | 'below' | null {
  if (ABOVE.test(word)) return 'above'
  return BELOW.test(word) ? 'below' : null
}

const LIMIT_WORDS = {
  above:
    /^(above|over|more than|uber|mehr als|plus de|superieur a|mas de|superior a|mais de|acima de|piu di|oltre|superiore a|boven|meer dan)$/,
  below:
    /^(below|under|less than|unter|weniger als|moins de|inferieur a|menos de|inferior a|abaixo de|meno di|sotto|inferiore a|onder|minder dan)$/,
} as const

/** Which side of a printed limit words such as 'below' stand for; null for other words. */
export function limitSide(words: string): 'above' | 'below' | null {
  const text = plain(words)
  if (LIMIT_WORDS.above.test(text)) return 'above'
  return LIMIT_WORDS.below.test(text) ? 'below' : null
}

/** Units of what is no glucose: after one of these a number is not a reading. */
const OTHER_UNITS =
  /^(g|gr|gram\w*|mg|ml|cl|dl|l|mmol mol|mmol|mmhg|kpa|c|f|cm|x|kroner|pieces?|stuck|tabs?|tabletten?|tablets?|glas|glass|cups?|slices?|units|gramm|grammes?|u|iu|ui|ie|e|ei|units?|einheiten|unites?|unidades|unita|eenheden|min|mins|minutes?|minuten|h|hours?|std|kcal|cal|kj|kg|lb|lbs|bpm|mmhg|ke|be|kh|%)\b/

/** Whether words after a number are a remark, not the unit of something else and not another number. */
export function isRemark(text: string): boolean {
  const words = plain(text)
  return words !== '' && !/\d/.test(words) && !OTHER_UNITS.test(words) && !text.includes('%')
}
