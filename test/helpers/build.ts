import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')
const SOURCES = ['src-core', 'src-main', 'src-renderer', 'electron.vite.config.ts', 'package.json']

/** Builds the program once before the tests, where a source is newer than what was built. */
export default function build(): void {
  const built = join(ROOT, 'out/renderer/index.html')
  const builtAt = existsSync(built) ? statSync(built).mtimeMs : 0
  if (SOURCES.every((source) => newest(join(ROOT, source)) <= builtAt)) return
  execFileSync(
    process.execPath,
    ['node_modules/electron-vite/bin/electron-vite.js', 'build', '--logLevel', 'warn'],
    {
      cwd: ROOT,
      stdio: 'inherit',
    },
  )
}

function newest(path: string): number {
  const stat = statSync(path)
  if (!stat.isDirectory()) return stat.mtimeMs
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))))
}
