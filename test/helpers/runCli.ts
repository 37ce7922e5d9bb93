import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads'

const ROOT = join(import.meta.dirname, '../..')
/** The built command line. */
export const CLI = join(ROOT, 'out/main/cli.js')

export interface CliRun {
  readonly status: number | null
  readonly stdout: string
  readonly stderr: string
}

interface Surroundings {
  readonly cwd: string
  readonly input?: string | Uint8Array
  readonly env?: Record<string, string>
}

/** 'Now' is 30 June 2026, noon UTC, the zone Berlin. */
export const MOMENT = { TZ: 'Europe/Berlin', SOURCE_DATE_EPOCH: '1782820800' }

/**
 * Runs the built command line in a folder, in a process that is kept for all runs of a test file: a start of its own
 * (`spawnCli`) takes several times the work. It knows no `--each`, whose reports are made in threads.
 */
export function runCli(args: readonly string[], { cwd, input = '', env = {} }: Surroundings): CliRun {
  const { port, signal } = (thread ??= keptThread())
  Atomics.store(signal, 0, 0)
  port.postMessage({ args, cwd, input: Buffer.from(input), env: { ...process.env, ...MOMENT, ...env } })
  Atomics.wait(signal, 0, 0)
  const { message } = receiveMessageOnPort(port) as { message: CliRun }
  return message
}

let thread: ReturnType<typeof keptThread> | undefined

function keptThread() {
  const { port1, port2 } = new MessageChannel()
  const signal = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT))
  const worker = new Worker(join(import.meta.dirname, 'keptThread.mjs'), {
    workerData: { port: port2, signal },
    transferList: [port2],
  })
  worker.unref()
  return { port: port1, signal }
}

/** The same in a process of its own: where how it starts, ends or meets its surroundings is what is looked at. */
export function spawnCli(args: readonly string[], { cwd, input = '', env = {} }: Surroundings): CliRun {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], {
    cwd,
    input,
    encoding: 'utf8',
    env: { ...process.env, ...MOMENT, ...env },
  })
  return { status, stdout, stderr }
}

/** Path of a sample log. */
export function sample(name: string): string {
  return join(ROOT, 'samples', name)
}
