import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'
import { describe } from 'vitest'
import { HANGS_MS } from './waiting'

/** Where Debian installs its Chromium. */
const CHROMIUM = '/usr/bin/chromium'
const HAS_CHROMIUM = existsSync(CHROMIUM)

/** Tests that drive a browser. Where there is none they are skipped, and their name says why. */
export function describeJourney(name: string, tests: () => void): void {
  const told = HAS_CHROMIUM ? name : `${name} (skipped: there is no ${CHROMIUM} to drive)`
  describe.skipIf(!HAS_CHROMIUM)(told, tests)
}

/** A browser that finds no other computer than this one. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    timeout: HANGS_MS,
    // The superuser of a container cannot have the sandbox; nothing but the program's own page is opened.
    chromiumSandbox: process.getuid?.() !== 0,
    args: ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
  })
}
