import { spawnSync } from 'node:child_process'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')
/** The built command line. */
export const CLI = join(ROOT, 'out/main/cli.js')

export interface CliRun {
  readonly status: number | null
  readonly stdout: string
  readonly stderr: string
}

/** Runs the built command line in a folder; 'now' is 30 June 2026, noon UTC, the zone Berlin. */
export function runCli(
  args: readonly string[],
  { cwd, input, env = {} }: { cwd: string; input?: string | Uint8Array; env?: Record<string, string> },
): CliRun {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], {
    cwd,
    input: input ?? '',
    encoding: 'utf8',
    env: { ...process.env, TZ: 'Europe/Berlin', SOURCE_DATE_EPOCH: '1782820800', ...env },
  })
  return { status, stdout, stderr }
}

/** Path of a sample log. */
export function sample(name: string): string {
  return join(ROOT, 'samples', name)
}
