/** Words that matter stand at the beginning of a text. */
const LONGEST_COMPARED = 300

/** Letters that do not part into a letter and an accent. */
const FOLDED: Readonly<Record<string, string>> = {
  ß: 'ss',
  ø: 'o',
  æ: 'ae',
  œ: 'oe',
  ł: 'l',
  ı: 'i',
  đ: 'd',
  ς: 'σ',
}

/** A text for comparing: lower case, accents and punctuation dropped, blanks single, digits of other scripts the plain ones. */
export function plain(text: string): string {
  const lower = text.slice(0, LONGEST_COMPARED).normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
  const folded = /^[\x20-\x7e]*$/.test(lower)
    ? lower
    : lower.replace(/[ßøæœłıđς]/g, (letter) => FOLDED[letter]).replace(/\p{Nd}/gu, plainDigit)
  return folded.replace(/[^\p{L}\p{N}%]+/gu, ' ').trim()
}

const DIGIT = /[^\t -~]/
/** Where the blocks of ten digits begin that logs are written with: Arabic, Persian, Devanagari, Bengali, Thai. */
const ZEROES = [0x0660, 0x06f0, 0x0966, 0x09e6, 0x0e50]

function plainDigit(digit: string): string {
  const code = digit.codePointAt(0) ?? 0
  const zero = ZEROES.find((first) => code >= first && code < first + 10)
  return zero === undefined ? digit : String(code - zero)
}

/** The text with compatibility forms, invisible signs and other scripts' digits and marks written the plain way. */
export function plainDigits(text: string): string {
  if (!DIGIT.test(text)) return text
  return text
    .normalize('NFKC')
    .replace(/[\u200b-\u200f\u2060\ufeff]/g, '')
    .replace(/\p{Nd}/gu, plainDigit)
    .replace(/[\u066b]/g, '.')
    .replace(/[\u066c\u2009\u202f\u00a0]/g, ' ')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2044\u2215]/g, '/')
    .trim()
}
