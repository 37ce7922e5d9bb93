import { withBlanks } from './concepts'
import { isControlKind } from './control'
import { plain } from './plain'
import { remembered } from './remembered'

// Marks by which a row says that it is no reading of the person: deleted or void, or a test of control solution. In the
// languages of the lexicon, from memory; as `plain` gives them.

export type RowMark = 'deleted' | 'control'

/** Words for deleted, void, withdrawn, by their stems; the first are whole words. */
const DELETED =
  /(?<!\p{L})(?:void|iptal|errone[oa]|(?:entered|logged) in error|not mine|(?:delet|voided|cancel+ed|cancellation|exclu[dis]|supersed|retract|withdrawn|invalid|discard|reject|gelosch|storn|ungultig|verworfen|ausgeschlossen|gestrichen|supprim|annul|rejet|efface|eliminad|anulad|borrad|cancelad|rechazad|descartad|apagad|rejeitad|cancellat|eliminat|esclus|scartat|non valid|verwijder|geannuleerd|ongeldig|geschrapt|vervallen|slette|radera|borttag|ogiltig|ugyldig|makuler|forkast|kasser|poistet|mitatoi|hylat|peruttu|usuniet|niewazn|skasowan|odrzucon|smazan|zrusen|neplatn|vymazan|torol|ervenytelen|visszavon|silin|gecersiz|διαγρα|ακυρ|удал|отмен|недействит|аннулир|исключен)\p{L}*)(?!\p{L})|削除|删除|刪除|無効|无效|作废|作廢|取消/u
/** Words that say it of a row's state; elsewhere a sensor or a plaster may be meant. */
const IN_STATE =
  /(?<!\p{L})(?:errors?|fehler\p{L}*|erreur|errore|fout|fejl|fel|virhe|blad|chyba|hiba|hata|(?:replaced|removed|ersetzt|entfernt|remplac|sustituid|substituid|sostituit|vervangen|ersatt|erstattet|korvattu|zastapion|nahrazen)\p{L}*)(?!\p{L})/u
/** Words in front that turn the meaning round. */
const NEGATED = /^(?:not|nicht|non|no|ikke|inte|icke|ei|nie|ne|nem|не|niet|pas|未)(?!\p{L})/u
/** Longer texts are notes that may speak of anything. */
const MOST_WORDS = 4

/** Words of a header whose ticks say that a row counts. */
const COUNTS =
  /^(?:is |ist |est |es |e )?(?:valid|current|active|use|used|use in report|in report|in use|include|included|counts?|approved|accepted|gultig|aktuell|aktiv|verwenden|zahlt|valide|actuel|actif|utiliser|valido|actual|activo|usar|ativo|attuale|attivo|usare|geldig|actueel|actief|gyldig|giltig|voimassa|wazny|platny|ervenyes|gecerli|aktif|εγκυρ\p{L}*|действ\p{L}*|有効|有效)$/u

/** A tick, as `plain` gives it. */
const YES = /^(?:y|yes|true|t|x|1|ja|j|oui|o|si|s|sim|kylla|tak|ano|igen|evet|ναι|да|はい|是|✓|✔|✗)$/
/** None, also as databases write what is missing. */
const NO =
  /^(?:|n|no|false|f|0|nein|non|nao|nei|nej|nee|ei|nie|ne|nem|hayir|οχι|нет|いいえ|否|none|null|nil|n a|na|nan)$/

/** Whether a cell is a tick: 'yes', 'x', '1'. */
export function isTick(cell: string): boolean {
  return YES.test(plain(cell) || cell.trim())
}

/** Whether a cell says no, or nothing. */
export function isNoTick(cell: string): boolean {
  return NO.test(plain(cell)) && !YES.test(cell.trim())
}

/** What the cell of a column of states says of its row; null where it is no such mark. */
export const markOfState = remembered((cell: string): RowMark | null => {
  const words = plain(cell)
  if (words === '' || words.split(' ').length > MOST_WORDS) return null
  if (isControlKind(cell)) return 'control'
  if (NEGATED.test(words) && !/^(?:non|not) valid/.test(words)) return null
  return DELETED.test(words) || IN_STATE.test(words) ? 'deleted' : null
})

/** The same of a column of kinds, tags or unknown words, where the mark must stand first. */
export const markIn = remembered((cell: string): RowMark | null => {
  const words = plain(cell)
  if (words === '' || words.split(' ').length > MOST_WORDS) return null
  if (isControlKind(cell)) return 'control'
  // Behind the sign for 'already' in Chinese.
  return DELETED.exec(words.replace(/^已/, ''))?.index === 0 ? 'deleted' : null
})

/** What a cell of a journal of changes says was done with its row; null for any other word. */
export const changeIn = remembered((cell: string): 'add' | 'delete' | null => {
  const words = plain(cell)
  if (/^(add|added|insert|inserted|create|created|new|i|c|neu|anlegen|angelegt|ajout|ajoute|alta|inserito|nuevo|novo|nuovo|toevoegen|nieuw)$/.test(words)) return 'add'
  return /^(delete|deleted|remove|removed|del|d|loschen|geloscht|suppression|supprime|baja|eliminado|eliminato|verwijderen|verwijderd)$/.test(words) ? 'delete' : null
}) // prettier-ignore

/** What ticks in a column mean: that the row is such a one, or that it counts. */
export type TickMeaning = RowMark | 'counts'

/** What ticks below a header mean; null where it is no header of marks. 'control' and 'counts' need ticks to be sure. */
export const tickMeaning = remembered((header: string): TickMeaning | null => {
  const words = withBlanks(header)
  if (COUNTS.test(words)) return 'counts'
  const mark = markIn(words.replace(/^(?:is|ist|was|has been) /, '').replace(/ (?:at|on|by|date|time|reason|am|le|el|il|von|par|por|da)$/, ''))
  return mark
}) // prettier-ignore

/** What a cell says of its row below a header with this meaning. */
export function tickedMark(meaning: TickMeaning, cell: string): RowMark | null {
  if (meaning === 'counts') return cell !== '' && isNoTick(cell) ? 'deleted' : null
  if (meaning === 'control') return isTick(cell) ? 'control' : null
  return isNoTick(cell) ? null : 'deleted'
}
