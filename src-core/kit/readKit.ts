import { findNodeAtLocation, type Node, parseTree, type ParseError } from 'jsonc-parser'
import type { z } from 'zod'
import { shortName } from '../model/named'
import { KIT, type Kit } from './kit'
import { type WrongValue, wrongValue } from './kitFault'

/** What is wrong at one place of the file; the catalogue's `kitMessages` says it. */
export type KitProblem = {
  /** 1-based line. */
  readonly line: number
} & KitWrong

export type KitWrong =
  | { readonly key: 'not-json' | 'too-deep' }
  | { readonly key: 'key-twice'; readonly name: string }
  /** `known`: the keys that would be right there. */
  | {
      readonly key: 'unknown-key'
      readonly path: KitPath
      readonly name: string
      readonly known: readonly string[]
    }
  | { readonly key: 'value'; readonly path: KitPath; readonly wrong: WrongValue }

/** Keys and 0-based places in lists, from the whole file on; empty where the file as a whole is meant. */
export type KitPath = readonly (string | number)[]

/** More are not told at once; the rest shows when these are mended. */
const MOST_PROBLEMS = 10
/** The shapes need four; the JSON library calls itself once for each level. */
const DEEPEST = 50

/** Reads the text of a kit file. Every problem is named with its line, not the first alone. */
export function readKit(text: string): { readonly kit: Kit } | { readonly problems: readonly KitProblem[] } {
  const json = text.replace(/^\uFEFF/, '')
  const at = (offset: number, wrong: KitWrong): KitProblem => ({
    line: json.slice(0, offset).split(/\r\n|\r|\n/).length,
    ...wrong,
  })
  if (nesting(json) > DEEPEST) return { problems: [{ line: 1, key: 'too-deep' }] }
  const errors: ParseError[] = []
  const tree = parseTree(json, errors, { disallowComments: true })
  if (tree === undefined || errors.length > 0)
    return { problems: [at(errors[0]?.offset ?? 0, { key: 'not-json' })] }
  const twice = keyTwice(tree)
  if (twice !== null)
    return { problems: [at(twice.offset, { key: 'key-twice', name: shortName(String(twice.value)) })] }
  const result = KIT.safeParse(JSON.parse(json), { reportInput: true })
  if (result.success) return { kit: result.data }
  const problems = result.error.issues.flatMap((issue) => {
    const path = issue.path as KitPath
    if (issue.code !== 'unrecognized_keys') {
      return [at(offsetOf(tree, path), { key: 'value', path, wrong: wrongValue(issue) })]
    }
    return issue.keys.map((key) => {
      const value = findNodeAtLocation(tree, [...path, key])
      const offset = (value?.parent ?? tree).offset
      return at(offset, { key: 'unknown-key', path, name: shortName(key), known: knownKeys(path) })
    })
  })
  return { problems: problems.sort((a, b) => a.line - b.line).slice(0, MOST_PROBLEMS) }
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
function offsetOf(tree: Node, path: KitPath): number {
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
function knownKeys(path: KitPath): readonly string[] {
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
