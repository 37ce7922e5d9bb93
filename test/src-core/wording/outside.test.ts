import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

// Sentences stand in the catalogue alone: whoever tells something takes it from there.

const ROOT = join(import.meta.dirname, '../../..')

/** What tells nobody anything, by folder or file, and why. */
const NO_SENTENCES: readonly { readonly of: RegExp; readonly why: string }[] = [
  { of: /^src-core\/wording\/english(\/|\.ts$)/, why: 'the catalogue itself' },
  { of: /^src-core\/log\/words\//, why: 'dictionaries: words by which logs of all languages are read' },
  {
    of: /^src-core\/(technique\/notes\/|day\/\w+Words\.ts$)/,
    why: 'dictionaries: words by which notes of all languages are read',
  },
  { of: /^src-core\/visit\/earlierFiles\.ts$/, why: 'words as they stand in files written long ago' },
  { of: /^src-core\/log\/typedByHand\.ts$/, why: 'a name in files, which stays whatever is told' },
]

/** Three words one after the other: a sentence or a piece of one. */
const IS_SENTENCE = /\p{L}{2,}[,;:’']?\s+(\p{L}+[,;:’']?\s+)+\p{L}{2,}/u

/** How many texts of a file are sentences; names of modules and patterns are none. */
function sentencesIn(file: string, code: string): readonly string[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, true)
  const found: string[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return
    if (isFaultOfProgram(node) || isSchemaDescription(node)) return
    const text = textOf(node)
    if (text !== null && (IS_SENTENCE.test(text) || (/\p{L}/u.test(text) && isShown(node)))) found.push(text)
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

/** The text of a literal, a template or an element, with '…' for what is put in; null for other nodes. */
function textOf(node: ts.Node): string | null {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isJsxText(node))
    return node.text
  if (!ts.isTemplateExpression(node)) return null
  return node.head.text + node.templateSpans.map(({ literal }) => `…${literal.text}`).join('')
}

/** `new Error('…')`: its message reaches nobody (see faultTrace.ts); what is told has a class of its own, and no text. */
function isFaultOfProgram(node: ts.Node): boolean {
  return ts.isNewExpression(node) && node.expression.getText() === 'Error'
}

/** `….meta({ description: '…' })`: of a schema, which is the same for every language as its keys are. */
function isSchemaDescription({ parent }: ts.Node): boolean {
  return (
    parent !== undefined &&
    ts.isPropertyAssignment(parent) &&
    parent.name.getText() === 'description' &&
    ts.isCallExpression(parent.parent.parent) &&
    /\.meta$/.test(parent.parent.parent.expression.getText())
  )
}

/** Attributes of elements and parts of the window that a person reads or hears. */
const SHOWN = /^(aria-(label|description|valuetext)|title|placeholder|alt|label|caption|legend)$/

/** Whether a text of the window stands in it, or in what an element or such an attribute is given; a single word counts. */
function isShown(node: ts.Node): boolean {
  const { parent } = node
  if (ts.isJsxText(node)) return true
  if (ts.isJsxAttribute(parent)) return isShownAttribute(parent)
  if (ts.isJsxExpression(parent)) return !ts.isJsxAttribute(parent.parent) || isShownAttribute(parent.parent)
  if (ts.isConditionalExpression(parent)) return node !== parent.condition && isShown(parent)
  if (ts.isParenthesizedExpression(parent) || ts.isTemplateSpan(parent)) return isShown(parent)
  if (ts.isTemplateExpression(parent)) return isShown(parent)
  return ts.isBinaryExpression(parent) && PASSES_ON.has(parent.operatorToken.kind) && isShown(parent)
}

/** Operators whose outcome may be what stands at their right. */
const PASSES_ON = new Set([
  ts.SyntaxKind.AmpersandAmpersandToken,
  ts.SyntaxKind.BarBarToken,
  ts.SyntaxKind.QuestionQuestionToken,
  ts.SyntaxKind.PlusToken,
])

/** `name` is what a part of the window is called; of an element of the browser it is no text. */
function isShownAttribute(attribute: ts.JsxAttribute): boolean {
  const name = attribute.name.getText()
  const { tagName } = attribute.parent.parent
  return SHOWN.test(name) || (name === 'name' && /^[A-Z]/.test(tagName.getText()))
}

const FOUND = new Map(
  ['src-core', 'src-main', 'src-renderer']
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map(
        (file) => `${folder}/${file.replaceAll('\\', '/')}`,
      ),
    )
    .filter((file) => /\.tsx?$/.test(file) && !NO_SENTENCES.some(({ of }) => of.test(file)))
    .map((file) => [file, sentencesIn(file, readFileSync(join(ROOT, file), 'utf8'))] as const)
    .filter(([, sentences]) => sentences.length > 0),
)

describe('sentences', () => {
  it('stand in the catalogue, and nowhere outside it', () => {
    expect([...FOUND].map(([file, sentences]) => ({ file, sentences }))).toEqual([])
  })

  it('are known as such: three words and more, whole or with gaps, never the name of a module', () => {
    const texts = (code: string) => sentencesIn('a.ts', code)
    expect(texts("const a = 'None was below range.'")).toHaveLength(1)
    expect(texts('const a = `${n} of them are doubtful`')).toHaveLength(1)
    expect(texts("import a from 'one two three'\nconst b = /one two three/\nconst c = 'two words'")).toEqual(
      [],
    )
    expect(
      texts("throw new Error('one two three')\nz.string().meta({ description: 'one two three' })"),
    ).toEqual([])
    expect(texts("throw new Told('one two three')\nconst a = { description: 'one two three' }")).toHaveLength(
      2,
    )
    expect(texts("// one two three four\nconst a = 'not-glucose'")).toEqual([])
  })
  it('of the window are single words too, where they are shown', () => {
    const texts = (code: string) => sentencesIn('a.tsx', `const a = (is: boolean) => ${code}`)
    expect(texts('<b>Save</b>')).toEqual(['Save'])
    expect(texts("<b>{is ? 'Save' : `Go ${1}`}</b>")).toEqual(['Save', 'Go …'])
    expect(texts("<b title='Save' className='save' name='save'>{is === 'yes' && '?'}</b>")).toEqual(['Save'])
    expect(texts("<Part name={is && 'Save'} kind='save' />")).toEqual(['Save'])
    expect(texts('<b>{words.SAVE}: {1} …</b>')).toEqual([])
  })
})
