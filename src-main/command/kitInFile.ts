import { readFileSync } from 'node:fs'
import type { Kit } from '../../src-core/kit/kit'
import type { Words } from '../../src-core/wording/words'
import { cannotOpen } from './commandVisit'

/** What a kit file tells, or a line for each thing in it that cannot be read. */
export async function kitInFile(
  words: Words,
  path: string,
): Promise<{ readonly kit: Kit } | { readonly problems: readonly string[] }> {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    return { problems: [`${path}: ${cannotOpen(words, error)} (kit-unreadable)`] }
  }
  const { readKit } = await import('../../src-core/kit/readKit')
  const read = readKit(new TextDecoder().decode(bytes))
  if ('kit' in read) return read
  const told = (problem: (typeof read.problems)[number]) => words.kitMessages.kitProblemText(problem)
  return {
    problems: read.problems.map(
      (problem) => `${path}, line ${problem.line}: ${told(problem)} (kit-unreadable)`,
    ),
  }
}
