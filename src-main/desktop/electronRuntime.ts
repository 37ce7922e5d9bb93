import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

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
