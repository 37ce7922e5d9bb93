import { findNodeAtLocation, type Node, parseTree, type ParseError } from 'jsonc-parser'
import type { z } from 'zod'
import {
  keyTwiceText,
  KIT_WORDS,
  kitPlaceText,
  NOT_JSON,
  oneOfText,
  outsideText,
  TOO_DEEP,
  unknownKeyText,
  wrongKindText,
} from '../wording/kitMessages'
import { KIT, type Kit } from './kit'
import { kitFaultOf } from './kitFault'

/** What is wrong at one place of the file, in words for the person who wrote it. */
export interface KitProblem {
  /** 1-based line. */
  readonly line: number
  readonly message: string
}

type Path = readonly (string | number)[]

/** More are not told at once; the rest shows when these are mended. */
const MOST_PROBLEMS = 10
const LONGEST_KEY = 40
/** The shapes need four; the JSON library calls itself once for each level. */
const DEEPEST = 50

/** Reads the text of a kit file. Every problem is named with its line, not the first alone. */
export function readKit(text: string): { readonly kit: Kit } | { readonly problems: readonly KitProblem[] } {
  const json = text.replace(/^\uFEFF/, '')
  const at = (offset: number, message: string): KitProblem => ({
    line: json.slice(0, offset).split(/\r\n|\r|\n/).length,
    message,
  })
  if (nesting(json) > DEEPEST) return { problems: [{ line: 1, message: TOO_DEEP }] }
  const errors: ParseError[] = []
  const tree = parseTree(json, errors, { disallowComments: true })
  if (tree === undefined || errors.length > 0) return { problems: [at(errors[0]?.offset ?? 0, NOT_JSON)] }
  const twice = keyTwice(tree)
  if (twice !== null) return { problems: [at(twice.offset, keyTwiceText(shortKey(String(twice.value))))] }
  const result = KIT.safeParse(JSON.parse(json), { error: wordsOf })
  if (result.success) return { kit: result.data }
  const problems = result.error.issues.flatMap((issue) => {
    const path = issue.path as Path
    const place = kitPlaceText(path)
    if (issue.code !== 'unrecognized_keys') {
      const fault = kitFaultOf(issue.message)
      const message = fault === null ? issue.message : KIT_WORDS[fault]
      return [at(offsetOf(tree, path), place === '' ? `The file ${message}` : `${place} ${message}`)]
    }
    return issue.keys.map((key) => {
      const value = findNodeAtLocation(tree, [...path, key])
      return at((value?.parent ?? tree).offset, unknownKeyText(place, shortKey(key), knownKeys(path)))
    })
  })
  return { problems: problems.sort((a, b) => a.line - b.line).slice(0, MOST_PROBLEMS) }
}

/** In place of the library's own words, which are for programmers. */
function wordsOf(issue: z.core.$ZodRawIssue): string | undefined {
  const { code } = issue
  if (code === 'invalid_type') {
    return issue.input === undefined ? KIT_WORDS.missing : wrongKindText(issue.expected)
  }
  if (code === 'invalid_value') {
    return issue.input === undefined ? KIT_WORDS.missing : oneOfText(issue.values)
  }
  if (code === 'too_small') {
    return outsideText(issue.origin, 'least', Number(issue.minimum), issue.inclusive !== false)
  }
  return code === 'too_big'
    ? outsideText(issue.origin, 'most', Number(issue.maximum), issue.inclusive !== false)
    : undefined
}

/** How deep brackets and braces stand within one another, texts aside. */
function nesting(json: string): number {
  let depth = 0
  let deepest = 0
  for (const [mark] of json.replace(/"(?:[^"\\]|\\.)*"/g, '').matchAll(/[[\]{}]/g)) {
    depth += mark === '[' || mark === '{' ? 1 : -1
    deepest = Math.max(deepest, depth)
  }
  return deepest
}

/** Where the value stands, or the nearest thing around it that exists. */
function offsetOf(tree: Node, path: Path): number {
  for (let length = path.length; length >= 0; length--) {
    const node = findNodeAtLocation(tree, path.slice(0, length))
    if (node !== undefined) return node.offset
  }
  return tree.offset
}

/** The second of two equal keys of one object: JSON would drop the first unseen. */
function keyTwice(node: Node): Node | null {
  const children = node.children ?? []
  if (node.type === 'object') {
    const seen = new Set<unknown>()
    for (const { children: [key] = [] } of children) {
      if (seen.has(key.value)) return key
      seen.add(key.value)
    }
  }
  for (const child of children) {
    const found = keyTwice(child)
    if (found !== null) return found
  }
  return null
}

/** The keys that the object at a path may have. */
function knownKeys(path: Path): readonly string[] {
  const shapes: Readonly<Record<string, z.ZodType>> = KIT.shape
  const [first] = path
  const entry = typeof first === 'string' ? innermost(shapes[first]) : KIT
  return Object.keys((entry as z.ZodObject).shape).filter((key) => key !== '$schema')
}

/** The object of a list's entries. */
function innermost(shape: z.ZodType): z.ZodType {
  const inner = shape as { unwrap?: () => z.ZodType; element?: z.ZodType }
  if (inner.element !== undefined) return innermost(inner.element)
  return inner.unwrap === undefined ? shape : innermost(inner.unwrap())
}

function shortKey(key: string): string {
  return key.length <= LONGEST_KEY ? key : `${key.slice(0, LONGEST_KEY)}…`
}
