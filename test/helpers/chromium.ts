import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'
import { describe, vi } from 'vitest'

/** Where Debian installs its Chromium. */
const CHROMIUM = '/usr/bin/chromium'
const HAS_CHROMIUM = existsSync(CHROMIUM)

/** A journey takes seconds; on a computer with much else to do it may take minutes. */
const JOURNEY_TIMEOUT_MS = 300_000

/** Tests that drive a browser. Where there is none they are skipped, and their name says why. */
export function describeJourney(name: string, tests: () => void): void {
  const told = HAS_CHROMIUM ? name : `${name} (skipped: there is no ${CHROMIUM} to drive)`
  vi.setConfig({ testTimeout: JOURNEY_TIMEOUT_MS, hookTimeout: JOURNEY_TIMEOUT_MS })
  describe.skipIf(!HAS_CHROMIUM)(told, tests)
}

/** A browser that finds no other computer than this one. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    // The superuser of a container cannot have the sandbox; nothing but the program's own page is opened.
    chromiumSandbox: process.getuid?.() !== 0,
    args: ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
  })
}
