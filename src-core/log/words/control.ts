import { plain } from './plain'

// Words for control solution.

const CONTROL =
  /^(controls?|control (solution|test|liquid)|(quality|glucose) control|kontroll\w*|controle|controleoplossing|controlevloeistof|(solution|liquide) de controle|(solucion|liquido) (de )?control|solucao (de )?controle|(soluzione|liquido) (di )?controllo|controllo|qc)$/

// 'Control' alone may be any check in a note: a night's, one after a low. Only the liquid itself is certain.
const CONTROL_NOTE =
  /\b(control solution|control liquid|control fluid|kontroll?osung\w*|kontrolllosung\w*|solution de controle|liquide de controle|solucion (de )?control|liquido (de|di) controllo?|solucao (de )?controle|soluzione (di )?controllo|controleoplossing|controlevloeistof)\b/

/** Whether a kind of entry is a test of control solution. */
export function isControlKind(kind: string): boolean {
  return CONTROL.test(plain(kind).replace(/ (level|stufe|niveau|nivel|livello)?\s?(low|normal|high|\d)$/, ''))
}

/** Whether a note or a meal tag says outright that the test was one of control solution. */
export function isControlNote(note: string): boolean {
  return CONTROL_NOTE.test(plain(note))
}
