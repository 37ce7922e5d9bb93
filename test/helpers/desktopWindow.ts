import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { CHANNELS } from '../../src-core/bridge/channels'
import { decodeMessage, encodeMessage } from '../../src-core/bridge/wire'
import { APP_PAGE, assetResponse } from '../../src-main/desktop/appScheme'
import { readAssets } from '../../src-main/window/assets'
import { serveBridge } from '../../src-main/desktop/bridgeServer'
import { visitService } from '../../src-main/window/wiring'
import { ENGLISH } from '../../src-core/wording/english'

const BUILT = join(import.meta.dirname, '../../out')
/** Stands for the desktop shell's own scheme, which a browser does not know: nothing is asked there. */
const ORIGIN = 'http://127.0.0.1:9'

type Invoke = (event: unknown, ...args: unknown[]) => Promise<unknown>

export interface DesktopProgram {
  /** The PDFs that were opened in the desktop's viewer, to be printed there. */
  readonly opened: readonly Uint8Array[]
  /** A window onto an empty visit; `holdBack`: waits before an answer reaches it. */
  readonly newWindow: (context: BrowserContext, holdBack: (channel: string) => Promise<void>) => Promise<Page>
  /** The same window loaded anew, onto an empty visit. */
  readonly freshWindow: (window: Page) => Promise<void>
  readonly end: () => Promise<void>
}

/**
 * The built window as the desktop shell shows it, in a browser that stands in for Electron's: its files from the shell's
 * own scheme, and its messages over the preload script's functions to the program behind it, in this process.
 */
export function desktopProgram(): DesktopProgram {
  const folder = mkdtempSync(join(tmpdir(), 'desktop-own-'))
  const dataHome = process.env.XDG_DATA_HOME
  process.env.XDG_DATA_HOME = folder
  const opened: Uint8Array[] = []
  const service = visitService(
    ENGLISH,
    join(BUILT, 'main'),
    { openVisit: () => Promise.resolve(null), saveVisit: () => Promise.resolve(null) },
    (_name, bytes) => Promise.resolve(opened.push(bytes) > 0),
  )
  const handlers = new Map<string, Invoke>()
  serveBridge(
    { handle: (channel, listener) => void handlers.set(channel, listener as Invoke) },
    service,
    noFault,
  )
  const assets = readAssets(join(BUILT, 'renderer'))
  const event = { senderFrame: { url: APP_PAGE, parent: null } }
  async function load(page: Page): Promise<void> {
    for (const does of ['begin', 'go-on'] as const) await handlers.get('file')?.(event, { does })
    await page.goto(`${ORIGIN}/`)
    await page.locator('.start').waitFor()
  }
  return {
    opened,
    newWindow: async (context, holdBack) => {
      const page = await context.newPage()
      await page.route(`${ORIGIN}/**`, async (route) => {
        const { pathname } = new URL(route.request().url())
        const response = assetResponse(assets, { url: APP_PAGE + pathname.slice(1), method: 'GET' })
        await route.fulfill({
          status: response.status,
          headers: Object.fromEntries(response.headers),
          body: Buffer.from(await response.arrayBuffer()),
        })
      })
      await page.exposeFunction('invokeDouble', async (channel: string, message: string) => {
        const argument = decodeMessage(Buffer.from(message, 'base64'))
        const result = await handlers.get(channel)?.(event, argument)
        await holdBack(channel)
        return Buffer.from(encodeMessage(result)).toString('base64')
      })
      await page.addInitScript(preloadDouble, CHANNELS)
      await load(page)
      return page
    },
    freshWindow: load,
    end: async () => {
      await service.end(true)
      if (dataHome === undefined) delete process.env.XDG_DATA_HOME
      else process.env.XDG_DATA_HOME = dataHome
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

function noFault(channel: string, error: unknown): void {
  throw new Error(`A fault of ${channel}`, { cause: error })
}

/** Runs in the page: the functions that the preload script gives it, their messages as text. */
function preloadDouble(channels: readonly string[]): void {
  const { invokeDouble } = window as unknown as {
    invokeDouble: (channel: string, message: string) => Promise<string>
  }
  const bytesOf = (text: string) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))
  const textOf = (bytes: Uint8Array) => btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''))
  function encoded(value: unknown): string {
    const parts: Uint8Array[] = []
    const text = JSON.stringify(value, (_key, item: unknown) => {
      if (!(item instanceof Uint8Array)) return item
      parts.push(item)
      return { $bytes: item.length }
    })
    const head = new TextEncoder().encode(text)
    const length = new Uint8Array(4)
    new DataView(length.buffer).setUint32(0, head.length)
    return textOf(Uint8Array.from([length, head, ...parts].flatMap((part) => [...part])))
  }
  function decoded(message: Uint8Array): unknown {
    const headLength = new DataView(message.buffer).getUint32(0)
    let end = 4 + headLength
    return JSON.parse(new TextDecoder().decode(message.subarray(4, end)), (_key, item: unknown) => {
      const length = (item as { $bytes?: number } | null)?.$bytes
      if (length === undefined) return item
      end += length
      return message.slice(end - length, end)
    })
  }
  const send = (channel: string) => async (argument: unknown) =>
    decoded(bytesOf(await invokeDouble(channel, encoded(argument))))
  const bridge = Object.fromEntries(channels.map((channel) => [channel, send(channel)]))
  Object.defineProperty(window, 'visitReport', { value: bridge })
}
