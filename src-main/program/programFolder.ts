import { homedir } from 'node:os'
import { isAbsolute, join } from 'node:path'

const NAME = 'visit-report'

type Environment = Readonly<Record<string, string | undefined>>

/**
 * Where the program keeps what is its own: the XDG base directory specification's data folder, `Application Support`
 * on macOS, `%APPDATA%` on Windows. Relative paths in the environment are ignored, as that specification asks.
 */
export function programFolder(
  platform: NodeJS.Platform = process.platform,
  env: Environment = process.env,
  home = homedir(),
): string {
  const named = (variable: string, otherwise: string) => {
    const path = env[variable] ?? ''
    return join(isAbsolute(path) ? path : otherwise, NAME)
  }
  if (platform === 'win32') return named('APPDATA', join(home, 'AppData', 'Roaming'))
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', NAME)
  return named('XDG_DATA_HOME', join(home, '.local', 'share'))
}
