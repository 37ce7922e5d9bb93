import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { CLI, MOMENT } from './runCli'

// A Redis of its own for a test, in a folder of its own, and programs beside one another that use it.

/** Whether Debian's redis-server is there; a test that needs it skips itself elsewhere. */
export const HAS_REDIS = spawnSync('redis-server', ['--version']).status === 0
if (!HAS_REDIS) console.log('Skipped: no redis-server (Debian: apt-get install redis-server).')

export interface TestRedis {
  readonly url: string
  readonly port: number
  /** Kills it, as a power cut would. */
  readonly kill: () => Promise<void>
  /** Starts it again at the same place, with its data or without. */
  readonly again: (withData: boolean) => Promise<void>
  readonly end: () => Promise<void>
}

/** A Redis that listens on this computer alone. */
export async function startRedis(...options: string[]): Promise<TestRedis> {
  const port = await freePort()
  const folders: string[] = []
  let server: ChildProcess
  const start = async (folder: string) => {
    const own = ['--port', String(port), '--bind', '127.0.0.1', '--dir', folder, '--appendonly', 'yes']
    const args = [...own, '--appendfsync', 'always', '--save', '', ...options]
    server = spawn('redis-server', args, { stdio: 'ignore' })
    while (!(await answers(port))) await setTimeout(50)
  }
  const newFolder = () => {
    const folder = mkdtempSync(join(tmpdir(), 'redis-'))
    folders.push(folder)
    return folder
  }
  const kill = async () => {
    const over = new Promise((resolve) => server.once('exit', resolve))
    server.kill('SIGKILL')
    await over
  }
  await start(newFolder())
  return {
    ...{ url: `redis://127.0.0.1:${port}`, port, kill },
    again: (withData) => start(withData ? (folders.at(-1) ?? '') : newFolder()),
    end: async () => {
      await kill()
      for (const folder of folders) rmSync(folder, { recursive: true })
    },
  }
}

/** A port on which nothing listens. */
export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0))
    })
  })
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.destroy()
      resolve(true)
    })
    socket.on('error', () => resolve(false))
  })
}

export interface RunningCli {
  readonly child: ChildProcess
  readonly ended: Promise<{
    readonly status: number | null
    readonly stdout: string
    readonly stderr: string
  }>
}

/** Starts the built command line beside others; `env` goes over the surroundings of the test. */
export function startCli(
  args: readonly string[],
  { cwd, env = {} }: { readonly cwd: string; readonly env?: Record<string, string> },
): RunningCli {
  const child = spawn(process.execPath, [CLI, ...args], { cwd, env: { ...process.env, ...MOMENT, ...env } })
  const said = { stdout: '', stderr: '' }
  for (const name of ['stdout', 'stderr'] as const) {
    child[name].on('data', (text: Buffer) => (said[name] += text.toString()))
  }
  return {
    child,
    ended: new Promise((resolve) => child.once('close', (status) => resolve({ status, ...said }))),
  }
}
