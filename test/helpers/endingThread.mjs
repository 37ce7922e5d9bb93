import { parentPort } from 'node:worker_threads'

// Stands in for the thread that computes: it answers with what was asked and ends by a fault where the moment is 0.
parentPort.on('message', ({ id, ...question }) => {
  if (question.moments?.now.nowMs === 0) throw new Error('a fault')
  parentPort.postMessage({ id, result: { kind: 'opened', question } })
})
