import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

// Sentences stand in the catalogue alone: whoever tells something takes it from there.

const ROOT = join(import.meta.dirname, '../../..')

/** Texts of three words and more that still stand outside, by file. A count may fall, never rise; no file may be added. */
const OUTSIDE: Readonly<Record<string, number>> = {
  'src-core/bridge/figuresView.ts': 4,
  'src-core/bridge/forms/formsView.ts': 1,
  'src-core/bridge/latestReading.ts': 3,
  'src-core/bridge/lowsView.ts': 2,
  'src-core/bridge/pictureTables.ts': 3,
  'src-core/bridge/wire.ts': 5,
  'src-core/charts/dayPicture.ts': 1,
  'src-core/charts/glucoseAxis.ts': 2,
  'src-core/exchange/reportJson.ts': 24,
  'src-core/findings/findings.ts': 1,
  'src-core/kit/kit.ts': 8,
  'src-core/log/dialect.ts': 1,
  'src-core/log/records.ts': 1,
  'src-core/log/typedByHand.ts': 1,
  'src-core/log/words/lexicon.ts': 26,
  'src-core/log/words/weekdays.ts': 6,
  'src-core/reference/interference.ts': 7,
  'src-core/report/byMeal.ts': 1,
  'src-core/report/dayInNumbers.ts': 3,
  'src-core/report/diary.ts': 1,
  'src-core/report/disagreeing.ts': 3,
  'src-core/report/eachLow.ts': 3,
  'src-core/report/forTheVisit.ts': 7,
  'src-core/report/howWellKnown.ts': 5,
  'src-core/report/lowsFirst.ts': 2,
  'src-core/report/meters.ts': 3,
  'src-core/report/method.ts': 3,
  'src-core/report/numbers.ts': 5,
  'src-core/report/sections.ts': 2,
  'src-core/report/theWeek.ts': 2,
  'src-core/report/trials.ts': 2,
  'src-core/report/trust.ts': 2,
  'src-core/report/twoPeriods.ts': 4,
  'src-core/technique/notes/clauses.ts': 2,
  'src-core/technique/notes/words.ts': 59,
  'src-core/visit/earlierFiles.ts': 2,
  'src-core/window/adding.ts': 1,
  'src-core/window/making.ts': 1,
  'src-main/browser/browser.ts': 5,
  'src-main/browser/browserHost.ts': 10,
  'src-main/command/commandLine.ts': 18,
  'src-main/command/options.ts': 22,
  'src-main/command/reportCommand.ts': 10,
  'src-main/desktop/electronRuntime.ts': 1,
  'src-main/desktop/window.ts': 1,
  'src-main/files/logFiles.ts': 1,
  'src-main/files/pdfSeal.ts': 1,
  'src-main/files/writeFiles.ts': 13,
  'src-main/window/assets.ts': 1,
  'src-main/window/calculationThread.ts': 1,
  'src-main/window/calculator.ts': 1,
  'src-main/window/gate.ts': 1,
  'src-main/window/securityHeaders.ts': 1,
  'src-main/window/visitParts.ts': 1,
}

/** Three words one after the other: a sentence or a piece of one. */
const IS_SENTENCE = /\p{L}{2,}[,;:’']?\s+(\p{L}+[,;:’']?\s+)+\p{L}{2,}/u

/** How many texts of a file are sentences; names of modules and patterns are none. */
function sentencesIn(file: string, code: string): readonly string[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest)
  const found: string[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return
    const text = textOf(node)
    if (text !== null && IS_SENTENCE.test(text)) found.push(text)
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

/** The text of a literal or a template, with '…' for what is put in; null for other nodes. */
function textOf(node: ts.Node): string | null {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text
  if (!ts.isTemplateExpression(node)) return null
  return node.head.text + node.templateSpans.map(({ literal }) => `…${literal.text}`).join('')
}

const FOUND = new Map(
  ['src-core', 'src-main']
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map(
        (file) => `${folder}/${file.replaceAll('\\', '/')}`,
      ),
    )
    .filter((file) => file.endsWith('.ts') && !/^src-core\/wording\/english(\/|\.ts)/.test(file))
    .map((file) => [file, sentencesIn(file, readFileSync(join(ROOT, file), 'utf8'))] as const)
    .filter(([, sentences]) => sentences.length > 0),
)

describe('sentences', () => {
  it('stand in the catalogue, and outside it nowhere but where they stood before', () => {
    const more = [...FOUND]
      .filter(([file, sentences]) => sentences.length > (OUTSIDE[file] ?? 0))
      .map(([file, sentences]) => ({ file, sentences }))
    expect(more).toEqual([])
  })

  it('that have moved into the catalogue leave the list of those outside', () => {
    const counts = Object.keys(OUTSIDE).map((file) => [file, FOUND.get(file)?.length ?? 0])
    expect(Object.fromEntries(counts)).toEqual(OUTSIDE)
  })

  it('are known as such: three words and more, whole or with gaps, never the name of a module', () => {
    const texts = (code: string) => sentencesIn('a.ts', code)
    expect(texts("const a = 'None was below range.'")).toHaveLength(1)
    expect(texts('const a = `${n} of them are doubtful`')).toHaveLength(1)
    expect(texts("import a from 'one two three'\nconst b = /one two three/\nconst c = 'two words'")).toEqual(
      [],
    )
    expect(texts("// one two three four\nconst a = 'not-glucose'")).toEqual([])
  })
})
