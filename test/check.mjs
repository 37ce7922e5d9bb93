// Is it good? Types, lint and format side by side, then the quick tests. Tells of each what it printed, and fails with any.
import { Buffer } from 'node:buffer'
import { spawn } from 'node:child_process'
import process from 'node:process'

/** Runs a script of package.json; gives whether it passed. What it prints is told once it has ended. */
function passes(script) {
  return new Promise((resolve) => {
    const run = spawn('npm', ['run', '-s', script], { shell: process.platform === 'win32' })
    const printed = []
    run.stdout.on('data', (piece) => printed.push(piece))
    run.stderr.on('data', (piece) => printed.push(piece))
    run.on('close', (status) => {
      process.stdout.write(`== ${script}: ${status === 0 ? 'passed' : 'FAILED'}\n`)
      process.stdout.write(Buffer.concat(printed))
      resolve(status === 0)
    })
  })
}

async function oneByOne(...scripts) {
  const passed = []
  for (const script of scripts) passed.push(await passes(script))
  return passed.every(Boolean)
}

// Lint takes about as long as the two others together.
const checks = await Promise.all([oneByOne('check:types', 'check:format'), passes('check:lint')])
const tests = await passes('test:quick')
process.exitCode = tests && checks.every(Boolean) ? 0 : 1
