/**
 * Advance widths of Source Sans 3 (SIL Open Font License 1.1), thousandths of the type size, for the
 * characters from space to tilde. A test compares them with the font that is embedded.
 */
// prettier-ignore
const REGULAR = [
  200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497, 497, 497, 497,
  497, 497, 249, 249, 497, 497, 497, 425, 847, 544, 588, 571, 615, 527, 494, 617, 652, 263, 480, 579, 486, 727, 647, 664,
  566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555, 496, 292, 504,
  544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
]
// prettier-ignore
const SEMIBOLD = [
  200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344, 513, 513, 513, 513, 513, 513, 513, 513,
  513, 513, 275, 275, 513, 513, 513, 444, 875, 558, 597, 576, 625, 538, 510, 628, 663, 282, 494, 597, 502, 745, 657, 674,
  582, 674, 592, 545, 546, 655, 536, 800, 541, 501, 540, 324, 344, 324, 513, 500, 549, 516, 563, 462, 564, 507, 317, 520,
  558, 262, 263, 522, 271, 843, 560, 549, 564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324, 255, 324, 513,
]
const FIRST_CODE = 0x20
/** Further characters that pictures print; of both weights the wider. */
const OTHERS: Readonly<Record<string, number>> = { '–': 480, '−': 513, '·': 275, '→': 619 }
const UNKNOWN = 620

/** Width of a line of letters in points, without kerning. */
export function textWidth(text: string, size: number, bold = false): number {
  const widths = bold ? SEMIBOLD : REGULAR
  let thousandths = 0
  for (const character of text) {
    thousandths += widths[character.charCodeAt(0) - FIRST_CODE] ?? OTHERS[character] ?? UNKNOWN
  }
  return (thousandths * size) / 1000
}
