import { spawn } from 'node:child_process'
import { createRequire } from 'node:module'
import { dirname, resolve } from 'node:path'
import { electronRuntime } from './electronRuntime'
import { ENGLISH } from '../../src-core/wording/english'

// npm start. Electron's own package fetches the runtime as soon as it is loaded, so it is only looked at from
// outside here: nothing is ever fetched without being asked for.
const { NO_RUNTIME } = ENGLISH.desktop
const root = resolve(import.meta.dirname, '../..')
const runtime = electronRuntime(electronFolder())

if (runtime === null) {
  process.stderr.write(NO_RUNTIME)
  process.exitCode = 1
} else {
  const environment = { ...process.env }
  // Set by some editors' terminals; it would turn the window into a plain Node.
  delete environment.ELECTRON_RUN_AS_NODE
  const child = spawn(runtime, [root, ...process.argv.slice(2)], { stdio: 'inherit', env: environment })
  child.on('error', () => {
    process.stderr.write(NO_RUNTIME)
    process.exitCode = 1
  })
  child.on('exit', (code) => {
    process.exitCode = code ?? 1
  })
}

function electronFolder(): string | null {
  try {
    return dirname(createRequire(import.meta.url).resolve('electron/package.json'))
  } catch {
    return null
  }
}
