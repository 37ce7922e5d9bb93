import { ENGLISH } from '../../src-core/wording/english'
import { WriteFailed } from '../../src-main/files/writeFiles'

/** What a person is told of a file that could not be written; '' where it was. Any other error is passed on. */
export async function notWritten(writing: Promise<unknown>): Promise<string> {
  return writing.then(() => '', toldOf)
}

/** What a person is told of an error of writing; throws any other. */
export function toldOf(error: unknown): string {
  if (!(error instanceof WriteFailed)) throw error
  return ENGLISH.outputs.notWrittenText(error.fault)
}
