import { plain } from './plain'

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
