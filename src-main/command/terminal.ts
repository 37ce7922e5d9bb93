import { withControlsEscaped, withControlsMarked } from '../../src-core/wording/controlCharacters'

/** Prints lines on standard output; control characters of names and logs are seen as marks. */
export function say(...lines: readonly string[]): void {
  process.stdout.write(shown(lines))
}

/** Prints JSON on standard output; control characters are escaped. */
export function sayJson(json: string): void {
  process.stdout.write(withControlsEscaped(json))
}

/** The same as `say` on standard error: what went wrong, and what to do. */
export function complain(...lines: readonly string[]): void {
  process.stderr.write(shown(lines))
}

function shown(lines: readonly string[]): string {
  return lines.map((line) => `${withControlsMarked(line)}\n`).join('')
}
