import { Buffer } from 'node:buffer'
import process from 'node:process'
import { closeSync, createReadStream, openSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { devNull, tmpdir } from 'node:os'
import { join } from 'node:path'

// One process that runs the built command line again and again (`runCli.ts`), each time in the folder, with the
// environment and the standard input that it is given, as a process of its own would have them.

const { reportCommand } = createRequire(import.meta.url)('../../out/main/report.cjs')

const written = { stdout: [], stderr: [] }
for (const name of ['stdout', 'stderr']) {
  process[name].write = (piece) => written[name].push(Buffer.from(piece))
}

process.on('message', async ({ args, cwd, input, env }) => {
  for (const name of Object.keys(process.env)) if (!(name in env)) delete process.env[name]
  Object.assign(process.env, env)
  process.chdir(cwd)
  takeInput(input)
  const status = await reportCommand(args)
  const [stdout, stderr] = ['stdout', 'stderr'].map((name) =>
    Buffer.concat(written[name].splice(0)).toString(),
  )
  process.send({ status, stdout, stderr })
})

/** Makes bytes the standard input: the descriptor itself, and the stream of it. */
function takeInput(input) {
  const path = input.length > 0 ? join(tmpdir(), `kept-process-${process.pid}`) : devNull
  if (path !== devNull) writeFileSync(path, input, { mode: 0o600 })
  closeSync(0)
  // The system gives the lowest number that is free.
  if (openSync(path, 'r') !== 0) throw new Error('Standard input is elsewhere.')
  // It stays readable, and nothing is left behind.
  if (path !== devNull) rmSync(path)
  const stream = createReadStream('', { fd: 0, autoClose: false })
  Object.defineProperty(process, 'stdin', { value: stream, configurable: true })
}
