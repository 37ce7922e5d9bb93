import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'
import { describe } from 'vitest'
import { HANGS_MS } from './waiting'

/** Where Debian installs its Chromium: the one without a window of its own, a third of the work, before the whole. */
const CHROMIUMS = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium']
const CHROMIUM = CHROMIUMS.find((path) => existsSync(path))

/** Tests that drive a browser. Where there is none they are skipped, and their name says why. */
export function describeJourney(name: string, tests: () => void): void {
  const told = CHROMIUM === undefined ? `${name} (skipped: there is no ${CHROMIUMS[1]} to drive)` : name
  describe.skipIf(CHROMIUM === undefined)(told, tests)
}

/** A browser that finds no other computer than this one; `viewer`: one that shows PDF files itself. */
export function launchChromium(viewer = false): Promise<Browser> {
  return chromium.launch({
    executablePath: viewer ? CHROMIUMS[1] : (CHROMIUM ?? CHROMIUMS[1]),
    timeout: HANGS_MS,
    // The superuser of a container cannot have the sandbox; nothing but the program's own page is opened.
    chromiumSandbox: process.getuid?.() !== 0,
    args: ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
  })
}
