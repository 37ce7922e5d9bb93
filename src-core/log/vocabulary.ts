import type { ColumnRole } from './logReport'

// Plain words of English, German, French, Spanish, Portuguese, Italian and Dutch for what a log holds, all in
// the form that `plain` gives: lower case, no accents, single blanks.

/** Words that matter stand at the beginning of a text. */
const LONGEST_COMPARED = 300

/** A text for comparing: lower case, accents and punctuation dropped, blanks single. */
export function plain(text: string): string {
  return text
    .slice(0, LONGEST_COMPARED)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[^\p{L}\p{N}%]+/gu, ' ')
    .trim()
}

const TAGS =
  /\b(tags|flags?|labels?|markers?|markierung(en)?|etiquettes?|etiquetas?|etichett[ae]|circumstances|umstande)\b/
const TEMPERATURE = /\btemperatu(re|r|ra|ur)\b/

/** Whether a header is of short tags or of the temperature: notes of another kind, read after the note itself. */
export function isTagHeader(header: string): boolean {
  return TAGS.test(plain(header)) || isTemperatureHeader(header)
}

/** Whether a header is of a temperature, which its name gives the degrees of. */
export function isTemperatureHeader(header: string): boolean {
  return TEMPERATURE.test(plain(header))
}

interface RoleWords {
  readonly role: ColumnRole
  readonly words: RegExp
}

/** Tried in this order: the first that fits a header gives its column's role. */
const ROLE_WORDS: readonly RoleWords[] = [
  {
    role: 'ignored',
    words:
      /\b(ketones?|keton\w*|cetone\w*|hba1c|a1c|average|mean|mittelwert|moyenne|media|gemiddelde|target|ziel\w*|objectif|objetivo|obiettivo|doel|weight|gewicht|poids|peso|steps|schritte|pas|pasos|passos|passi|stappen|systolic|diastolic|pulse|puls)\b/,
  },
  {
    role: 'unit',
    words: /\b(units?|einheit(en)?|unites?|unidad(es)?|unidades?|unita|eenheid|eenheden)\b/,
  },
  {
    role: 'timestamp',
    words:
      /\b(timestamp|datetime|date and time|date time|time and date|horodatage|zeitpunkt|zeitstempel|datum und uhrzeit|datum uhrzeit|datum (und )?zeit|datum en tijd|datum tijd|date et heure|date heure|fecha y hora|fecha hora|data e hora|data hora|data e ora|data ora|momento da medicao|tijdstempel|logged at|measured at|taken at)\b/,
  },
  {
    role: 'insulin',
    words: /\b(insulin\w*|bolus|basal|insuline|insulina)\b/,
  },
  {
    role: 'carbohydrate',
    words: /\b(carb\w*|kohlenhydrat\w*|kh|be|glucides?|carbohidratos|hidratos|carboidrat\w*|koolhydrat\w*)\b/,
  },
  {
    role: 'event',
    words:
      /\b(exercise|activity|sport|bewegung|aktivitat|exercice|activite|ejercicio|actividad|exercicio|atividade|esercizio|attivita|beweging|activiteit|medication|medikament\w*|medicament\w*|medicacion|medicacao|medicinali|farmaci|medicatie|event|ereignis|evenement|evento|gebeurtenis)\b/,
  },
  {
    role: 'glucose',
    words:
      /\b(\w*glucose\w*|glucosa|glucosio|glicose|\w*glukose\w*|glyc[ae]?emi\w*|glucemi\w*|glicemi\w*|glykami\w*|blutzucker\w*|bloedsuiker\w*|blood sugar|sugar|logged value|azucar|acucar|zucker\w*|bg|bgl|bz|smbg|cbg|fsbg|finger ?sticks?|capillary|bloedglucose\w*)\b/,
  },
  {
    role: 'meal',
    words:
      /\b(meals?|mahlzeit(en)?|repas|comidas?|refeicao|refeicoes|pasto|pasti|maaltijd\w*|meal tag|meal marker|momento de la comida|momento da refeicao|momento del pasto)\b/,
  },
  {
    role: 'note',
    words:
      /\b(notes?|comments?|remarks?|bemerkung(en)?|kommentare?|notiz(en)?|anmerkung(en)?|remarques?|commentaires?|notas?|comentarios?|observac\w*|observation|commento|commenti|osservazion\w*|opmerking(en)?|notitie\w*)\b/,
  },
  { role: 'note', words: TAGS },
  { role: 'note', words: TEMPERATURE },
  {
    role: 'meter',
    words:
      /\b(meters?|device|serial|instrument|geratenummer|gerat|messgerat|seriennummer|appareil|lecteur|glucometre|numero de serie|dispositivo|medidor|glucometro|aparelho|strumento|misuratore|numero di serie|apparaat|serienummer|toestel)\b/,
  },
  {
    role: 'kind',
    words:
      /\b(kind|type|entry|record|category|sample|art|typ|eintrag|eintragsart|kategorie|probe|genre|categorie|echantillon|tipo|categoria|muestra|amostra|campione|soort|monster)\b/,
  },
  {
    role: 'time',
    words: /\b(time|clock|uhrzeit|zeit|messzeit|heures?|horas?|ora|orario|uur|tijd|tijdstip)\b/,
  },
  {
    role: 'date',
    words: /\b(\w*datum|dates?|data|fechas?|day|tag|jour|dia|giorno|dag|meetdatum)\b/,
  },
]

/** Words that mean a glucose value only in a table that also has dates and no better column. */
const WEAK_GLUCOSE =
  /^(value|values|result|results|reading|readings|measurement|level|wert|messwert|ergebnis|valeur|resultat|mesure|valor|resultado|medicion|medicao|medida|valore|risultato|misura|misurazione|waarde|meetwaarde|resultaat|meting)( (in )?(mg dl|mmol l))?$/

const SENSOR =
  /\b(sensors?|cgm|interstitial|interstitiell\w*|interstiti\w*|scan|continuous|capteur|gewebe\w*)\b/

const MANUAL = /\b(manual|manuell|manuel|manuelle|handmatig)\b/

/** What a header says its column holds; null where its words are none of the known ones. */
export function roleOfHeader(header: string): ColumnRole | 'weak-glucose' | null {
  const words = plain(header)
  if (words === '') return null
  // 'Glucose unit' is a unit, 'Glucose (mg/dL)' is not: only the words before a bracket name the column.
  const name = plain(header.split(/[([{]/, 1)[0]) || words
  const role = ROLE_WORDS.find(({ words: pattern }) => pattern.test(name))?.role
  // 'Manual' alone is a tick for entries by hand; 'manual glucose' is the finger-stick's column.
  if (MANUAL.test(name) && role !== 'glucose') return 'ignored'
  if (role) return role
  if (WEAK_GLUCOSE.test(name)) return 'weak-glucose'
  return null
}

/** Whether a glucose header speaks of a sensor. */
export function isSensorHeader(header: string): boolean {
  return SENSOR.test(plain(header))
}

/** Order of day, month and year that a header or a units row spells out, such as '(DD/MM/YYYY)'. */
export function dateOrderInHeader(header: string): 'ymd' | 'dmy' | 'mdy' | null {
  const text = header.toLowerCase()
  if (/\b(d{1,2}|g{1,2}|t{1,2}|j{1,2})[./ -]+m{1,3}[./ -]+(y{2,4}|a{2,4}|j{2,4})\b/.test(text)) return 'dmy'
  if (/\bm{1,3}[./ -]+(d{1,2}|g{1,2}|t{1,2}|j{1,2})[./ -]+(y{2,4}|a{2,4}|j{2,4})\b/.test(text)) return 'mdy'
  if (/\b(y{2,4}|a{2,4}|j{2,4})[./ -]+m{1,3}[./ -]+(d{1,2}|g{1,2}|t{1,2}|j{1,2})\b/.test(text)) return 'ymd'
  return null
}

const ABOVE = /^0*(hi|h|high|hoch|zu hoch|haut|eleve|alto|alta|hoog|too high|above range|over range)$/
const BELOW =
  /^0*(lo|l|low|niedrig|tief|zu niedrig|bas|bajo|baja|baixo|baixa|basso|bassa|laag|too low|below range|under range)$/

/** Which limit of the meter a word stands for, in the form `plain` gives; null for any other word. */
export function markerSide(word: string): 'above' | 'below' | null {
  if (ABOVE.test(word)) return 'above'
  return BELOW.test(word) ? 'below' : null
}

const CONTROL =
  /^(controls?|control (solution|test|liquid)|(quality|glucose) control|kontroll\w*|controle|controleoplossing|controlevloeistof|(solution|liquide) de controle|(solucion|liquido) (de )?control|solucao (de )?controle|(soluzione|liquido) (di )?controllo|controllo|qc)$/

// 'Control' alone may be any check in a note: a night's, one after a low. Only the liquid itself is certain.
const CONTROL_NOTE =
  /\b(control solution|control liquid|control fluid|kontroll?osung\w*|kontrolllosung\w*|solution de controle|liquide de controle|solucion (de )?control|liquido (de|di) controllo?|solucao (de )?controle|soluzione (di )?controllo|controleoplossing|controlevloeistof)\b/

/** Whether a kind of entry is a test of control solution. */
export function isControlKind(kind: string): boolean {
  return CONTROL.test(plain(kind).replace(/ (level|stufe|niveau|nivel|livello)?\s?(low|normal|high|\d)$/, ''))
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
  /^(g|gr|gram\w*|gramm|grammes?|u|iu|ui|ie|e|ei|units?|einheiten|unites?|unidades|unita|eenheden|min|mins|minutes?|minuten|h|hours?|std|kcal|cal|kj|kg|lb|lbs|bpm|mmhg|ke|be|kh|%)\b/

/** Whether words after a number are a remark, not the unit of something else and not another number. */
export function isRemark(text: string): boolean {
  const words = plain(text)
  return words !== '' && !/\d/.test(words) && !OTHER_UNITS.test(words) && !text.includes('%')
}

/** Whether a note or a meal tag says outright that the test was one of control solution. */
export function isControlNote(note: string): boolean {
  return CONTROL_NOTE.test(plain(note))
}

const GLUCOSE_KIND =
  /\b(blood|blut|sang|sangre|sangue|bloed|capillary|kapillar|capillaire|capilar|capillare|finger\w*|smbg)\b/

/** Whether a kind of entry is a glucose reading. */
export function isGlucoseKind(kind: string): boolean {
  const words = plain(kind)
  return roleOfHeader(kind) === 'glucose' || GLUCOSE_KIND.test(words)
}

/** 'After exercise', 'vor dem Sport': a reading's tag, not an entry of its own. */
const RELATIVE = /^(before|after|pre|post|vor|nach|avant|apres|antes|despues|depois|prima|dopo|voor|na)\b/

/** Whether a kind of entry is known to be something else: insulin, carbohydrate, exercise, a note. */
export function isOtherKind(kind: string): boolean {
  if (RELATIVE.test(plain(kind))) return false
  const role = roleOfHeader(kind)
  return role === 'insulin' || role === 'carbohydrate' || role === 'event' || role === 'note'
}

/** Whether a kind of entry is one whose values are never glucose, whatever the column is called. */
export function isMeasuredOtherwise(kind: string): boolean {
  if (RELATIVE.test(plain(kind))) return false
  const role = roleOfHeader(kind)
  return role === 'insulin' || role === 'carbohydrate'
}

const MONTHS: readonly RegExp[] = [
  /^(jan|ene|gen|janv)/,
  /^(feb|fev|fevr)/,
  /^(mar|maa|mrt|mae|mrz)/,
  /^(apr|avr|abr)/,
  /^(mai|may|mag|mei|maio|mayo)/,
  /^(jun|juin|giu)/,
  /^(jul|juil|lug)/,
  /^(aug|aou|ago)/,
  /^(sep|set|sett)/,
  /^(oct|okt|ott|out)/,
  /^(nov)/,
  /^(dec|dez|dic|des)/,
]

/** Number of the month, 1 to 12, that a word in the form `plain` gives names; null for any other word. */
export function monthNumber(word: string): number | null {
  const index = MONTHS.findIndex((pattern) => pattern.test(word))
  return index < 0 ? null : index + 1
}
