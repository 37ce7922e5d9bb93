import { resolve } from 'node:path'
import { readAssets } from './assets'
import { startBrowserHost } from './browserHost'
import { faultTrace } from './faultTrace'
import { answer } from './gate'
import { idleTimer } from './idleTimer'
import { visitService } from './wiring'

// npm run browser: the same window in the user's own browser, served from this computer to this computer.
const IDLE_MINUTES = 15

const handlers = visitService(import.meta.dirname)
const idle = idleTimer(IDLE_MINUTES, () => end('Nobody used the window for a while'))
const host = await startBrowserHost({
  assets: readAssets(resolve(import.meta.dirname, '../renderer')),
  answer: (channel, argument) => answer(channel, argument, handlers, reportFault),
  onActivity: () => idle.restart(),
})

process.on('SIGINT', () => end('Stopped'))
process.on('SIGTERM', () => end('Stopped'))
process.stdout.write(`Open this address in your browser; it works once, and only on this computer:

  ${host.entry}

Ctrl-C ends the program; so do ${IDLE_MINUTES} minutes without an open window.
`)

function end(why: string): void {
  process.stdout.write(`${why}; the program has ended.\n`)
  idle.stop()
  host.close().then(
    () => process.exit(0),
    () => process.exit(1),
  )
}

function reportFault(channel: string, error: unknown): void {
  process.stderr.write(`${faultTrace(channel, error)}\n`)
}
