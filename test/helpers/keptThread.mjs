import { fork } from 'node:child_process'
import { join } from 'node:path'
import { workerData } from 'node:worker_threads'

// Stands between a test that waits and the process that works for it (`runCli.ts`): passes each run on and its outcome back.

const { port, signal } = workerData
let kept = null

port.on('message', (run) => {
  kept ??= started()
  kept.send(run)
})

function started() {
  const child = fork(join(import.meta.dirname, 'keptProcess.mjs'), {
    serialization: 'advanced',
    // No terminal, so that nothing is asked there; a fault of the process itself is to be seen.
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  })
  child.stderr.setEncoding('utf8')
  let faults = ''
  child.stderr.on('data', (text) => (faults += text))
  child.on('message', answer)
  child.on('close', (status) => {
    kept = null
    answer({ status, stdout: '', stderr: `The process that is kept has ended.\n${faults}` })
  })
  return child
}

function answer(outcome) {
  port.postMessage(outcome)
  Atomics.store(signal, 0, 1)
  Atomics.notify(signal, 0)
}
