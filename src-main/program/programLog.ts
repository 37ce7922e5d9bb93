import { appendFileSync, chmodSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { PROGRAM } from './program'
import { programFolder } from './programFolder'

const MOST_BYTES = 32_768

export function programLogIn(folder: string): string {
  return join(folder, 'program.log')
}

/**
 * Notes a fault of the program in its log, one line: when, which version, where, which kind. Nothing of a visit, no name
 * of a file or person: of the places where the fault arose only the program's own file names.
 */
export function logFault(channel: string, error: unknown, folder = programFolder()): void {
  const line = [new Date().toISOString(), PROGRAM.version, channel, ...kindOf(error)].join(' ')
  const path = programLogIn(folder)
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) > MOST_BYTES) forgetOldest(path)
    appendFileSync(path, `${line}\n`, { mode: 0o600 })
  } catch {
    // A fault that cannot be noted is told to the person all the same.
  }
}

function kindOf(error: unknown): readonly string[] {
  if (!(error instanceof Error)) return [typeof error]
  const { code } = error as NodeJS.ErrnoException
  // The stack repeats the message, which may hold a part of a log.
  const stack = (error.stack ?? '').replace(error.message, '')
  const places = stack
    .split('\n')
    .flatMap((line) => /^ {4}at .*?([\w.-]+\.[cm]?js:\d+:\d+)\)?$/.exec(line)?.[1] ?? [])
  return [error.constructor.name, ...(/^\w+$/.test(code ?? '') ? [code as string] : []), ...places]
}

function forgetOldest(path: string): void {
  const lines = readFileSync(path, 'utf8').split('\n')
  writeFileSync(path, lines.slice(lines.length >> 1).join('\n'), { mode: 0o600 })
  chmodSync(path, 0o600)
}
