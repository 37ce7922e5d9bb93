import { plain } from './plain'

// Words for control solution, in the languages of the lexicon, from memory; as `plain` gives them.

/** Control by one word: of a kind or a state, where it is no check of the person's. */
const CONTROL =
  /^(controls?|ctrls?|ctl|qc|control (test|check|level|material)|(quality|glucose) control|qualitatskontrolle|controle de qualite|kontroll\w*|controle|kontrola|kontrolni|kontrolny|kontrolli|kontrollmaling|controllo|control de calidad|controllo qualita|controle de qualidade|контроль\p{L}*|контрольн\p{L}*|ελεγχοσ|質控|质控|コントロール|精度管理)$/u

/** The liquid itself. 'Control' alone may be any check in a note: a night's, one after a low. */
const LIQUID =
  /(?<!\p{L})(control (solution|liquid|fluid|soln?)|kontroll?osung\p{L}*|kontrolllosung\p{L}*|kontrollflussigkeit|(solution|liquide) (de )?controle|(solucion|liquido) (de |di )?controll?o?|(solucao|liquido) (de )?controle|(soluzione|liquido) (di )?controllo|controleoplossing|controlevloeistof|kontroloplosning|kontrolvaeske|kontrollosning|kontrollvatska|kontrollopplosning|kontrollvaeske|kontrolliliuos\p{L}*|(plyn|roztwor) kontrolny|kontrolni roztok|kontroll?oldat\p{L}*|kontrol (solusyonu|cozeltisi|sivisi)|(διαλυμα|υγρο) ελεγχου|контрольн\p{L}* раствор\p{L}*)(?!\p{L})|质控液|質控液|コントロール液|管理液|コントロール溶液/u

/** Whether a kind of entry is a test of control solution. */
export function isControlKind(kind: string): boolean {
  const words = plain(kind).replace(/ (level|stufe|niveau|nivel|livello)?\s?(low|normal|high|\d)$/, '')
  return CONTROL.test(words) || LIQUID.test(words)
}

/** Whether a note or a meal tag says outright that the test was one of control solution. */
export function isControlNote(note: string): boolean {
  return LIQUID.test(plain(note))
}
