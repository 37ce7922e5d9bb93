import { resolve } from 'node:path'
import { readAssets } from '../window/assets'
import { startBrowserHost } from './browserHost'
import { faultTrace } from '../program/faultTrace'
import { filesNamed } from '../command/filesNamed'
import { answer } from '../window/gate'
import { idleTimer } from './idleTimer'
import { complain, say } from '../command/terminal'
import { visitService } from '../window/wiring'
import { ENGLISH } from '../../src-core/wording/english'

// npm run browser [-- FILE ...]: the same window in the user's own browser, served from this computer to this computer.
const IDLE_MINUTES = 15

const named = filesNamed(ENGLISH, process.argv.slice(2))
const handlers = visitService(ENGLISH, import.meta.dirname, null, null)
const unopened = [...named.problems, ...(await handlers.openWith(named.visitPath, named.logs))]
handlers.tellUnopened(unopened)
for (const { about, message } of unopened) {
  complain(about === null ? message : `${about}: ${message}`)
}
const idle = idleTimer(IDLE_MINUTES, () => end('Nobody used the window for a while'))
const host = await startBrowserHost({
  assets: readAssets(resolve(import.meta.dirname, '../renderer')),
  answer: (channel, argument) => answer(channel, argument, handlers, reportFault),
  onActivity: () => idle.restart(),
  onUsed: (entry) =>
    say(
      'That address was opened before. If that was not you, end the program. A new one:',
      '',
      `  ${entry}`,
      '',
    ),
})

process.on('SIGINT', () => end('Stopped'))
process.on('SIGTERM', () => end('Stopped'))
say(
  'Open this address in your browser; it works once, and only on this computer:',
  '',
  `  ${host.entry}`,
  '',
  `Ctrl-C ends the program; so do ${IDLE_MINUTES} minutes without an open window. What is not saved then is offered at the next start.`,
)

function end(why: string): void {
  say(`${why}; the program has ended.`)
  idle.stop()
  Promise.all([host.close(), handlers.end(false)]).then(
    () => process.exit(0),
    () => process.exit(1),
  )
}

function reportFault(channel: string, error: unknown): void {
  complain(...faultTrace(channel, error))
}
