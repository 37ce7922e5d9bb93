// What only words tell apart is no state: words change, and stand in several languages.

const WORDING = /(^|\/)wording\//
/** Words for people have blanks, or end as sentences do; codes do not. */
const isSentence = (value) => typeof value === 'string' && /\p{L}.*\s.*\p{L}|\p{L}.*…/u.test(value)
/** Types of what holds a catalogue; elsewhere `words` are those of a log. */
const GIVE_CATALOGUE = new Set(['Words', 'ReportContext'])
const LOOKS = new Set(['includes', 'startsWith', 'endsWith', 'indexOf', 'has'])
const MATCHES = new Set(['test', 'exec', 'match', 'search'])
const MESSAGE =
  'No state, rule or lookup reads a sentence: let a code or a flag tell, and make the words from it.'

/** The name at the head of `NAME`, `NAME.key[0]` or `name(...)`; null for all else. */
function head(node) {
  if (node?.type === 'Identifier') return node.name
  if (node?.type === 'MemberExpression') return head(node.object)
  if (node?.type === 'CallExpression') return head(node.callee)
  return node?.type === 'TSNonNullExpression' || node?.type === 'TSAsExpression'
    ? head(node.expression)
    : null
}

/** Whether `NAME.key(...)` goes through a catalogue that was given: `words.lows.NO_LOW`, `context.words.lows.headline()`. */
function isOfCatalogue(node) {
  if (node?.type === 'Identifier') return node.name === 'words'
  if (node?.type === 'MemberExpression') return node.property.name === 'words' || isOfCatalogue(node.object)
  if (node?.type === 'CallExpression') return isOfCatalogue(node.callee)
  return node?.type === 'TSNonNullExpression' || node?.type === 'TSAsExpression'
    ? isOfCatalogue(node.expression)
    : false
}

const isNothing = (node) =>
  (node.type === 'Literal' && (node.value === null || node.value === '')) ||
  (node.type === 'Identifier' && node.name === 'undefined')

/** Comparing with sentences, searching in them, and switching on them. */
export const noSentenceRead = {
  meta: { type: 'problem', schema: [] },
  create(context) {
    const sentences = new Set()
    let hasCatalogue = false
    const isMessage = (node) =>
      (node.type === 'Identifier' && node.name === 'message') ||
      (node.type === 'MemberExpression' && node.property.name === 'message')
    const isOfWords = (node) =>
      (node.type === 'Literal' && isSentence(node.value)) ||
      sentences.has(head(node)) ||
      (hasCatalogue && isOfCatalogue(node)) ||
      isMessage(node)
    const report = (node) => context.report({ node, message: MESSAGE })
    return {
      Program({ body }) {
        for (const statement of body) {
          if (statement.type === 'ImportDeclaration' && WORDING.test(statement.source.value)) {
            for (const { local } of statement.specifiers) sentences.add(local.name)
          }
          if (statement.type === 'ImportDeclaration') {
            hasCatalogue ||= statement.specifiers.some(({ local }) => GIVE_CATALOGUE.has(local.name))
          }
          const declared = statement.declaration ?? statement
          for (const { id, init } of declared.type === 'VariableDeclaration' ? declared.declarations : []) {
            if (init?.type === 'Literal' && isSentence(init.value)) sentences.add(id.name)
          }
        }
      },
      BinaryExpression(node) {
        if (!/^[!=]==?$/.test(node.operator) || isNothing(node.left) || isNothing(node.right)) return
        if (isOfWords(node.left) || isOfWords(node.right)) report(node)
      },
      SwitchCase({ test }) {
        if (test && isOfWords(test)) report(test)
      },
      CallExpression(node) {
        const { callee, arguments: given } = node
        if (callee.type !== 'MemberExpression') return
        const { name } = callee.property
        if (LOOKS.has(name) && [callee.object, ...given].some(isOfWords)) report(node)
        if (MATCHES.has(name) && [callee.object, ...given].some((one) => isMessage(one))) report(node)
      },
    }
  },
}
