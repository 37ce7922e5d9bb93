import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** What `npm start` says where the desktop window cannot be opened. */
export const NO_RUNTIME = `The desktop window needs Electron's runtime, and it is not on this computer. Nothing has been fetched.

The same window opens in your own browser without it:

  npm run browser

With a network connection, npx install-electron fetches the runtime; npm start then opens the window.
`

/**
 * The Electron program inside its npm package's folder, or null where the package or its runtime is missing.
 * The package names its program in path.txt, relative to dist.
 */
export function electronRuntime(folder: string | null): string | null {
  if (folder === null) return null
  const pathFile = join(folder, 'path.txt')
  if (!existsSync(pathFile)) return null
  const program = join(folder, 'dist', readFileSync(pathFile, 'utf8').trim())
  return existsSync(program) ? program : null
}
