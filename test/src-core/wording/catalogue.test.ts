import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { pageDocument } from '../../../src-core/report/pageDocument'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

const ROOT = join(import.meta.dirname, '../../..')

/** Every text of the program, with its file; pieces of one template or sum stand together. */
const CATALOGUE = ['src-core', 'src-main', 'src-renderer'].flatMap((folder) =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .flatMap((file) => textsOf(`${folder}/${file}`)),
)

function textsOf(file: string): { file: string; text: string }[] {
  const source = ts.createSourceFile(file, readFileSync(join(ROOT, file), 'utf8'), ts.ScriptTarget.Latest)
  const found: { file: string; text: string }[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return
    const text = joined(node)
    if (text === null) ts.forEachChild(node, visit)
    else found.push({ file, text })
    // What stands in a template's gaps is text of its own.
    if (text !== null && ts.isTemplateExpression(node))
      node.templateSpans.forEach((span) => visit(span.expression))
  }
  visit(source)
  return found
}

/** The text of a literal, a template or a sum of them, with '…' for what is put in; null for other nodes. */
function joined(node: ts.Node): string | null {
  if (ts.isJsxText(node)) return node.text.replace(/\s+/g, ' ').trim()
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text
  if (ts.isTemplateExpression(node)) {
    return node.head.text + node.templateSpans.map((span) => `…${span.literal.text}`).join('')
  }
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.PlusToken) {
    const left = joined(node.left)
    const right = joined(node.right)
    return left === null || right === null ? null : left + right
  }
  return null
}

/** Everything that is printed of a log of finger-sticks, doubtful readings and lows among them. */
function printedTexts(unit: 'mg/dL' | 'mmol/L'): readonly string[] {
  const rows = inventedLog({ days: 120, repeats: 0.2, wrong: 0.3, centre: 120, spread: 0.4, unit })
  const document = pageDocument(ENGLISH, analysisOf(rows, { unit }), {
    paper: 'A4',
    label: null,
    madeAt: parseIsoDay('2026-07-01') ?? 0,
    programVersion: '1.0.0',
  })
  const texts: string[] = []
  JSON.stringify(document, (key, value: unknown) => {
    if (typeof value === 'string' && key !== 'svg') texts.push(value)
    return value
  })
  return texts
}

const PRINTED = [...printedTexts('mg/dL'), ...printedTexts('mmol/L')]

describe('the catalogue of sentences', () => {
  it('is found as a whole', () => {
    const texts = CATALOGUE.map(({ text }) => text)
    expect(texts.length).toBeGreaterThan(500)
    expect(texts).toContain(
      'Do not change doses from these pages. Feeling or reading low: treat first, test afterwards.',
    )
    expect(texts.some((text) => text.startsWith('… of …, lows on top. None of them disappears'))).toBe(true)
    expect(PRINTED.join(' ')).toContain('Do not change doses from these pages.')
    expect(PRINTED.join(' ')).toMatch(/Fits best/)
  })
})

describe('doses', () => {
  const OF_DOSES =
    /\b(dos(e|es|age|ing)|insulin|bolus|basal|correction|medicines?|medications?|tablets?|metformin|carb(ohydrate)?s?)\b/i
  /** Every sentence of the pages and the window that may speak of doses or medicines. */
  const ALLOWED = [
    'Do not change doses from these pages.',
    'Do not change doses from these figures.',
    'not a diagnosis and not a basis for changing insulin or other doses.',
    'Figures are for discussion with the care team, not for dosing decisions.',
    'Not for dosing decisions.',
    'tell the team if a dose was taken on this reading.',
    'tell the team if a dose was taken on such a reading.',
    // A trial's readings are none to act on.
    'never to dose on',
    // Sugar that was in the hand.
    'if you had just handled tablets, juice or fruit',
    // A reason why a finger-stick reads wrong.
    'high-dose vitamin C',
    // What a person tells besides the logs; nothing is computed with it.
    'Insulin or tablets that can cause lows',
    'Whether insulin or tablets that can cause lows are used',
    'strips, control solution, medicines, laboratory A1C, questions, as JSON',
    'Medicines and supplements',
    'This medicine',
    'Add a medicine',
    'Added to medicines.',
    'Insulin, carbohydrates and events are the log’s own words; nothing is computed with them.',
    'Never dose on these tests.',
    // Rows of a log that are no readings.
    'other than glucose (insulin, food, events)',
    'an entry of another kind: insulin, food, exercise, an event or a note.',
  ]
  /** Words by which columns and rows of a log are known are no sentences. */
  const isSentence = (text: string) => /[a-z] [a-z]/i.test(text)

  it('are spoken of only to leave them alone', () => {
    const others = CATALOGUE.filter(
      ({ file, text }) =>
        !file.startsWith('src-core/log/') &&
        isSentence(text) &&
        OF_DOSES.test(ALLOWED.reduce((rest, part) => rest.replace(part, ''), text)),
    )
    expect(others).toEqual([])
  })

  it('and amounts to take or to eat are advised nowhere in print', () => {
    const rest = PRINTED.map((text) => ALLOWED.reduce((left, part) => left.replaceAll(part, ''), text))
    expect(rest.filter((text) => OF_DOSES.test(text))).toEqual([])
    const amount = /\b\d+([.,]\d+)?\s?(g|grams?|units?|IU|IE|ml|millilitres?|tablets?)\b(?!\/)/
    expect(PRINTED.filter((text) => amount.test(text))).toEqual([])
    expect(CATALOGUE.filter(({ text }) => amount.test(text))).toEqual([])
  })

  it('are not advised in the imperative either', () => {
    const advice =
      /\b(take|inject|increase|decrease|reduce|raise|lower|skip|adjust|correct|double|halve)\b (your|the|an?|more|less|some) (insulin|dose|tablet|medicine|sugar)/i
    expect(CATALOGUE.filter(({ text }) => advice.test(text))).toEqual([])
    expect(PRINTED.filter((text) => advice.test(text))).toEqual([])
  })
})

describe('words made for sensors', () => {
  const OF_SENSORS = /time in range|time (above|below) range|\bTIR\b|\bGMI\b|glucose management indicator/i

  it('are printed of no finger-stick', () => {
    expect(PRINTED.filter((text) => OF_SENSORS.test(text))).toEqual([])
  })

  it('stand in one file alone', () => {
    const files = CATALOGUE.filter(({ text }) => OF_SENSORS.test(text)).map(({ file }) => file)
    expect([...new Set(files)]).toEqual(['src-core/wording/english/sensor.ts'])
  })
})

describe('words of doubt', () => {
  it('claim no certainty of a reading, neither of a doubtful one nor of the others', () => {
    const certain =
      /\b(certain(ly|ty)?|definitely|surely|undoubtedly|guaranteed?|proves?|proof|is wrong|are wrong|was wrong\b(?! clock)|is right|are right|is correct|are correct|reliable)\b/i
    // 'does not prove', 'the meter clock was wrong', 'cannot be relied on' deny it or speak of clocks.
    const denied = [
      /does not prove (them|it) right/g,
      /the meter'?s? clock was wrong/g,
      /days whose meter clock was wrong/g,
      /the command line is wrong/g,
      /the passphrase is wrong/gi,
    ]
    const claims = CATALOGUE.filter(({ text }) =>
      certain.test(denied.reduce((rest, part) => rest.replace(part, ''), text)),
    )
    expect(claims).toEqual([])
    expect(
      PRINTED.filter((text) => certain.test(denied.reduce((rest, part) => rest.replace(part, ''), text))),
    ).toEqual([])
  })

  it('do not say ‘at most’ of what the meter standard allows', () => {
    const texts = CATALOGUE.filter(({ text }) => /at most ±/.test(text))
    expect(texts).toEqual([])
  })
})

describe('the lows', () => {
  it('are told in print with what no low would not show', () => {
    const quiet = analysisOf(inventedLog({ days: 20, centre: 160, spread: 0.1 }))
    expect(quiet.periods[0].lows.readingsBelow70).toBe(0)
    const document = pageDocument(ENGLISH, quiet, {
      paper: 'A4',
      label: null,
      madeAt: parseIsoDay('2026-07-01') ?? 0,
      programVersion: '1.0.0',
    })
    const text = JSON.stringify(document.content)
    expect(text).toContain('No low was recorded.')
    expect(text).toContain('That does not show that there were none.')
  })
})

/** Modules whose sentences a patient reads on the pages, the hand-outs and in the window. */
const FOR_PATIENTS = [
  'advice', 'browserHost', 'day', 'decided', 'diary', 'doubt', 'figures', 'fileScreen', 'findings', 'forms', 'handout', 'head', 'highs', 'kit', 'latestReading', 'logs', 'logsScreen', 'lows', 'meals', 'outputs', 'pagesScreen', 'pictureScreen', 'readingsScreen',
  'reasons', 'stretches', 'traces', 'trust', 'visitFile', 'visitForms', 'visitWindow', 'waysToRead', 'week', 'window', 'windowFrame', 'windowWork',
] // prettier-ignore
/** A school grade of the formula is an age of five years more. */
const OLDEST = 12

describe('what patients read', () => {
  // Kincaid, Fishburne, Rogers and Chissom, Derivation of new readability formulas, 1975.
  it.each(FOR_PATIENTS)('can be read at twelve years of age: %s', (module) => {
    const texts = CATALOGUE.filter(({ file, text }) => file.endsWith(`english/${module}.ts`) && text.split(' ').length > 4)
    expect(texts.length).toBeGreaterThan(0)
    const sentences = texts
      .flatMap(({ text }) => text.split(/[.!?]+(?:\s|$)/))
      .map((sentence) => sentence.replaceAll('…', ' ten ').match(/[\p{L}\p{N}’]+/gu) ?? [])
      .filter((words) => words.length > 0)
    const words = sentences.flat()
    const syllables = words.reduce((sum, word) => sum + Math.max(1, syllable(word)), 0)
    const grade = fleschKincaid({ sentence: sentences.length, word: words.length, syllable: syllables })
    expect(grade + 5).toBeLessThanOrEqual(OLDEST)
  })
}) // prettier-ignore
