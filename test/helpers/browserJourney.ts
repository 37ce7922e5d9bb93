import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createRequire } from 'node:module'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, Locator, Page } from 'playwright-core'
import { encodeMessage, KEY_NAME } from '../../src-core/bridge/wire'
import { BRIDGE_PATH, MESSAGE_TYPE } from '../../src-main/browser/browserHost'
import type { FileRequest } from '../../src-core/bridge/fileRequest'
import { launchChromium } from './chromium'
import { expect } from 'vitest'
import { HANGS_MS, soon } from './waiting'

const ROOT = join(import.meta.dirname, '../..')
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** The moment and zone of both ways to a report: 30 June 2026, noon UTC, in Berlin. */
export const SAME_MOMENT = { TZ: 'Europe/Berlin', SOURCE_DATE_EPOCH: '1782820800' }

/** A browser, and the built browser host behind each of its pages. */
export interface Journey {
  readonly context: BrowserContext
  /**
   * A page that shows the start of the window. A host that was started with nothing named goes on, with an empty visit; one
   * that was started with something ends when the next page is opened.
   */
  newPage(options?: HostStart): Promise<Page>
  /**
   * The same page loaded anew, as a new one shows the start of the window, of the same program with an empty visit: less
   * than half the work of a new one. Where that page or its program is gone, new ones.
   */
  freshPage(before: Page): Promise<Page>
  /**
   * What went wrong on any page since it was last asked for: messages to the console, errors, requests to other computers.
   * A test that takes its own leaves none to those after it.
   */
  takeTroubles(): readonly string[]
  /** The addresses that the latest host has printed so far. */
  addresses(): readonly string[]
  /** Ends the program behind the latest window; `how`: 'SIGKILL' gives it no time to tidy up. */
  endHost(how?: NodeJS.Signals): Promise<void>
  end(): Promise<void>
}

/** How a host is started. */
export interface HostStart {
  /** Named on its command line. */
  readonly files?: readonly string[]
  /** The folder that it keeps for itself; a fresh one where none is given. */
  readonly ownFolder?: string
  /** Whether those before it go on, whatever was named. */
  readonly beside?: boolean
}

/** Leaves a page nothing to ask before it is loaded anew: no warning of its own, no PDF that its print frame shows. */
const UNASKED = `
  for (const frame of document.querySelectorAll('iframe')) frame.remove()
  addEventListener('beforeunload', (event) => event.stopImmediatePropagation(), { capture: true })`

const VIEWPORT = { width: 1180, height: 780 } as const

/** Drives the built browser host as `npm run browser` starts it. `viewer`: in a browser that shows PDF files itself. */
export async function startJourney({ viewer = false } = {}): Promise<Journey> {
  const browser = await launchChromium(viewer)
  const context = await browser.newContext({ viewport: VIEWPORT })
  context.setDefaultTimeout(HANGS_MS)
  /** The host that was started with nothing named, which goes on from page to page; null before it and after its end. */
  let plain: (Host & { readonly key: string }) | null = null
  /** Those that were started with something named. */
  let named: Host[] = []
  let latest: Host | null = null
  const ended = new Set<string>()
  const troubles = watch(context, ended)
  const folders: string[] = []
  const freshFolder = () => {
    folders.push(mkdtempSync(join(tmpdir(), 'journey-own-')))
    return folders[folders.length - 1]
  }
  const endAll = async (hosts: readonly Host[], how: NodeJS.Signals = 'SIGTERM') => {
    for (const { process, origin } of hosts) {
      ended.add(origin)
      if (process.exitCode !== null || process.signalCode !== null) continue
      const exited = once(process, 'exit')
      process.kill(how)
      await exited
    }
  }
  const endNamed = (how?: NodeJS.Signals) => endAll(named.splice(0), how)
  const endPlain = async (how?: NodeJS.Signals) => {
    const hosts = plain ? [plain] : []
    plain = null
    await endAll(hosts, how)
  }
  /** Shows the start of the host that goes on, its visit emptied, in a page; null where none goes on. */
  const beginAgain = async (inPage: () => Promise<Page>): Promise<Page | null> => {
    if (plain === null || plain.process.exitCode !== null) return null
    await endNamed()
    await beginAnew(plain)
    const page = await inPage()
    await page.goto(await nextAddress(plain.printed))
    await page.locator('.start').waitFor()
    latest = plain
    return page
  }
  const newPage = async ({ files = [], ownFolder, beside = false }: HostStart = {}) => {
    const isPlain = files.length === 0 && ownFolder === undefined && !beside
    const again = isPlain ? await beginAgain(() => context.newPage()) : null
    if (again) return again
    if (!beside) await endNamed()
    if (isPlain) await endPlain()
    const host = await startHost(files, ownFolder ?? freshFolder())
    latest = host
    if (!isPlain) named = [...named, host]
    const page = await context.newPage()
    // In by the address that it prints.
    await page.goto(addressesIn(host.printed.text)[0])
    await page.locator('.start, .asked, .opened, .visit-screen').first().waitFor()
    if (isPlain) {
      const key = await page.evaluate((name) => sessionStorage.getItem(name), KEY_NAME)
      plain = { ...host, key: key ?? '' }
    }
    return page
  }
  return {
    context,
    takeTroubles: () => troubles.splice(0),
    newPage,
    freshPage: async (before) => {
      const same = async () => {
        await before.evaluate(UNASKED)
        await before.setViewportSize(VIEWPORT)
        await before.emulateMedia({ colorScheme: null, forcedColors: null })
        return before
      }
      // A page that does not let itself be loaded anew goes, with its program.
      const again = before.isClosed() ? null : await beginAgain(same).catch(() => null)
      if (again) return again
      await endPlain()
      await before.close()
      return newPage()
    },
    addresses: () => addressesIn(latest?.printed.text ?? ''),
    endHost: (how) => (named.length > 0 ? endNamed(how) : endPlain(how)),
    end: async () => {
      await browser.close()
      await endNamed()
      await endPlain()
      for (const folder of folders) rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** The address that lets in once more: a used one makes the host print it. */
async function nextAddress(printed: { readonly text: string }): Promise<string> {
  const [latest, count] = [addressesIn(printed.text).at(-1) ?? '', addressesIn(printed.text).length]
  await fetch(latest)
  await soon(() => expect(addressesIn(printed.text).length).toBeGreaterThan(count))
  return addressesIn(printed.text).at(-1) ?? ''
}

/** Empties the visit of a host, whatever of it is not saved. */
async function beginAnew({ origin, key }: Host & { readonly key: string }): Promise<void> {
  for (const does of ['begin', 'go-on'] as const) {
    const response = await fetch(`${origin}${BRIDGE_PATH}file`, {
      method: 'POST',
      headers: { origin, authorization: `Bearer ${key}`, 'content-type': MESSAGE_TYPE },
      body: encodeMessage({ does } satisfies FileRequest),
    })
    if (!response.ok) throw new Error(`The host did not begin anew: ${response.status}`)
  }
}

function addressesIn(text: string): readonly string[] {
  return text.match(/http:\/\/127\.0\.0\.1:\d+\/open\?token=[\w-]+(?=\s)/g) ?? []
}

interface Host {
  readonly process: ChildProcess
  /** 'http://127.0.0.1:PORT'. */
  readonly origin: string
  /** All that it prints. */
  readonly printed: { text: string }
}

/** Starts the built host; given once it has printed its first address. */
function startHost(files: readonly string[], ownFolder: string): Promise<Host> {
  const host = spawn(process.execPath, [join(ROOT, 'out/main/browser.js'), ...files], {
    env: { ...process.env, ...SAME_MOMENT, XDG_DATA_HOME: ownFolder },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const printed = { text: '' }
  return new Promise((resolve, reject) => {
    host.stdout.on('data', (piece: Buffer) => {
      printed.text += piece.toString()
      const [address] = addressesIn(printed.text)
      if (address !== undefined) resolve({ process: host, origin: new URL(address).origin, printed })
    })
    host.once('exit', () => reject(new Error(`The browser host ended without an address: ${printed.text}`)))
  })
}

/** Of the page itself, and of the browser's own PDF viewer. */
const OWN_SCHEMES: ReadonlySet<string> = new Set(['data:', 'blob:', 'chrome:', 'chrome-extension:'])

function watch(context: BrowserContext, ended: ReadonlySet<string>): string[] {
  const troubles: string[] = []
  context.on('console', (message) => {
    // A page may still ask a program that was ended for the test.
    const ofEnded = [...ended].some((origin) => message.location().url.startsWith(`${origin}/`))
    if (ofEnded && /net::ERR_(CONNECTION_|EMPTY_RESPONSE|SOCKET_NOT_CONNECTED)/.test(message.text())) return
    if (['error', 'warning'].includes(message.type())) troubles.push(`console: ${message.text()}`)
  })
  context.on('weberror', (error) => troubles.push(`error: ${error.error().message}`))
  context.on('dialog', (dialog) => {
    // A page with unsaved edits asks before it is left or loaded again.
    if (dialog.type() === 'beforeunload') {
      // It may be gone by itself, with its page.
      dialog.accept().catch(() => undefined)
      return
    }
    troubles.push(`dialog: ${dialog.message()}`)
    void dialog.dismiss()
  })
  context.on('request', (request) => {
    const { protocol, hostname } = new URL(request.url())
    if (!OWN_SCHEMES.has(protocol) && hostname !== '127.0.0.1') {
      troubles.push(`request: ${request.url()}`)
    }
  })
  return troubles
}

/** A log as a person chooses it: a path, or a name and what the file holds. */
export type Chosen = string | { readonly name: string; readonly text: string | Uint8Array }

/** Chooses logs in the window's own picker and waits until they were read. */
export async function chooseLogs(page: Page, ...logs: readonly Chosen[]): Promise<void> {
  const files = logs.map((log) =>
    typeof log === 'string'
      ? { name: log.slice(log.lastIndexOf('/') + 1), mimeType: 'text/csv', buffer: readFileSync(log) }
      : { name: log.name, mimeType: 'text/csv', buffer: Buffer.from(log.text) },
  )
  await page.locator('input[type=file]').setInputFiles(files)
  await page.locator('.large-figures, .logs-screen, .fault').first().waitFor()
}

/** Drops files or folders of this computer into the middle of the window, as a file manager does. */
export async function drop(page: Page, ...paths: readonly string[]): Promise<void> {
  const devtools = await page.context().newCDPSession(page)
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const) {
    const data = { items: [], files: [...paths], dragOperationsMask: 1 }
    await devtools.send('Input.dispatchDragEvent', { type, x: 300, y: 300, data })
  }
  await devtools.detach()
}

/** Goes to one of the steps. */
export async function goTo(
  page: Page,
  step: 'Visit' | 'Logs' | 'Readings' | 'Picture' | 'Pages',
): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Steps' })
    .getByRole('button', { name: new RegExp(`^${step}`) })
    .click()
}

/** The element once it is there to be seen. */
export async function shown(page: Page, selector: string): Promise<Locator> {
  const element = page.locator(selector)
  await element.waitFor()
  return element
}

/** Whether the first of two things stands on the page, once either does. */
export async function standsFirst(one: Locator, other: Locator): Promise<boolean> {
  await one.or(other).first().waitFor()
  return (await one.count()) > 0
}

interface AxeResult {
  readonly violations: readonly {
    readonly id: string
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[]
  }[]
}

/** The rules of axe-core by default that look at colours. */
const OF_COLOURS = ['color-contrast', 'link-in-text-block']

/**
 * What axe-core finds wrong with a page as it stands, one line for each element. `colours`: by the rules of colours alone,
 * where nothing else has changed since it was asked for all.
 */
export async function axeViolations(page: Page, colours = false): Promise<readonly string[]> {
  await page.evaluate(AXE)
  const options = colours ? { runOnly: { type: 'rule', values: OF_COLOURS } } : {}
  const { violations } = await page.evaluate<AxeResult>(`axe.run(${JSON.stringify(options)})`)
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
  )
}
