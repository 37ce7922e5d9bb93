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

/** Numbers in Chinese signs before a part of a date or a clock time: 二〇二六年五月十一日, 七時. */
const CHINESE_NUMBER = /[〇零一二三四五六七八九十]{1,4}(?=[年月日時时點点分])/g
const CHINESE_DIGITS = '〇一二三四五六七八九'

/** '五' is 5, '十一' 11, '三十' 30, '二〇二六' 2026. */
function chineseNumber(signs: string): string {
  const digits = (text: string): string =>
    text.replace(/./g, (sign) => String(Math.max(0, CHINESE_DIGITS.indexOf(sign))))
  const ten = signs.indexOf('十')
  if (ten < 0) return digits(signs)
  return `${digits(signs.slice(0, ten)) || '1'}${digits(signs.slice(ten + 1)) || '0'}`
}

/** The text with compatibility forms, invisible signs and other scripts' digits and marks written the plain way. */
export function plainDigits(text: string): string {
  if (!DIGIT.test(text)) return text
  return text
    .normalize('NFKC')
    .replace(/[\u200b-\u200f\u2060\ufeff]/g, '')
    .replace(/\p{Nd}/gu, plainDigit)
    .replace(CHINESE_NUMBER, chineseNumber)
    .replace(/[\u066b]/g, '.')
    .replace(/[\u066c\u2009\u202f\u00a0]/g, ' ')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2044\u2215]/g, '/')
    .trim()
}
