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
import type { Words } from '../../src-core/wording/words'

// npm run browser [-- FILE ...]: the same window in the user's own browser, served from this computer to this computer.
const IDLE_MINUTES = 15
/** The language of the terminal and the window, chosen here. */
const WORDS: Words = ENGLISH
const { browserHost } = WORDS

const named = filesNamed(WORDS, process.argv.slice(2))
const handlers = visitService(WORDS, import.meta.dirname, null, null)
const unopened = [...named.problems, ...(await handlers.openWith(named.visitPath, named.logs))]
handlers.tellUnopened(unopened)
for (const { about, message } of unopened) {
  complain(about === null ? message : `${about}: ${message}`)
}
const idle = idleTimer(IDLE_MINUTES, () => end(browserHost.UNUSED))
const host = await startBrowserHost({
  words: WORDS,
  assets: readAssets(resolve(import.meta.dirname, '../renderer')),
  answer: (channel, argument) => answer(channel, argument, handlers, reportFault),
  onActivity: () => idle.restart(),
  onUsed: (entry) => say(browserHost.OPENED_BEFORE, '', `  ${entry}`, ''),
})

process.on('SIGINT', () => end(browserHost.STOPPED))
process.on('SIGTERM', () => end(browserHost.STOPPED))
say(browserHost.OPEN_THIS, '', `  ${host.entry}`, '', browserHost.howItEnds(IDLE_MINUTES))

function end(why: string): void {
  say(why)
  idle.stop()
  Promise.all([host.close(), handlers.end(false)]).then(
    () => process.exit(0),
    () => process.exit(1),
  )
}

function reportFault(channel: string, error: unknown): void {
  complain(...faultTrace(channel, error))
}
