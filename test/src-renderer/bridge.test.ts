import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Bridge } from '../../src-core/bridge/contract'
import { decodeMessage, encodeMessage } from '../../src-core/bridge/wire'
import { ENGLISH } from '../../src-core/wording/english'
import { chooseBridge, hostBridge, HostLost } from '../../src-renderer/bridge'
import { faultSentence } from '../../src-renderer/useVisit'
import { keepAwake } from '../../src-renderer/keepAwake'

const KEY = 'a key'
const ABOUT = { name: 'Visit report', version: '1' }

/** Stands in for fetch: gives one answer to everything and keeps what was asked. */
function host(answer: () => Response | Promise<Response>) {
  return vi.fn<typeof fetch>(() => Promise.resolve().then(answer))
}

afterEach(() => {
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

describe('the bridge over the browser host', () => {
  it('sends each message as bytes to the channel’s own address, on the page’s own host', async () => {
    const send = host(() => new Response(encodeMessage(null)))
    const bridge = hostBridge(ENGLISH, send, KEY)
    const logs = [{ name: 'meter.csv', bytes: new Uint8Array([0, 255, 10]) }]
    await bridge.about(null)
    await bridge.addLogs({ logs })
    await bridge.makePdf({ revision: 2 })
    expect(send.mock.calls.map(([address]) => address)).toEqual([
      '/bridge/about',
      '/bridge/addLogs',
      '/bridge/makePdf',
    ])
    const headers = { 'content-type': 'application/octet-stream', authorization: `Bearer ${KEY}` }
    for (const [, init] of send.mock.calls) {
      expect(init).toMatchObject({ method: 'POST', headers })
    }
    const sent = send.mock.calls.map(([, init]) => decodeMessage(init?.body as Uint8Array))
    expect(sent).toEqual([null, { logs }, { revision: 2 }])
  })

  it('sends chosen files as the same message, from where they lie', async () => {
    const send = host(() => new Response(encodeMessage(null)))
    await hostBridge(ENGLISH, send, KEY).addFiles([new File(['Time'], 'a.csv'), new File(['x,y'], 'b.csv')])
    const body = send.mock.calls[0][1]?.body as Blob
    expect(body).toBeInstanceOf(Blob)
    const bytes = (text: string) => new TextEncoder().encode(text)
    expect(decodeMessage(new Uint8Array(await body.arrayBuffer()))).toEqual({
      logs: [
        { name: 'a.csv', bytes: bytes('Time') },
        { name: 'b.csv', bytes: bytes('x,y') },
      ],
    })
  })

  it('gives what the program answered, bytes among it', async () => {
    const made = { kind: 'made', fileName: 'pages.pdf', bytes: new Uint8Array([37, 80, 68, 70]) }
    const bridge = hostBridge(
      ENGLISH,
      host(() => new Response(encodeMessage(made))),
      KEY,
    )
    expect(await bridge.makePdf({ revision: 2 })).toEqual(made)
  })

  it.each([400, 413, 500])('fails where the host refuses with %i, whatever else it says', async (status) => {
    const bridge = hostBridge(
      ENGLISH,
      host(() => new Response(encodeMessage(ABOUT), { status })),
      KEY,
    )
    await expect(bridge.about(null)).rejects.toThrow(new Error(`Message refused: ${status}`))
  })

  it('says what to do where the host does not know the page', async () => {
    const bridge = hostBridge(
      ENGLISH,
      host(() => new Response('', { status: 403 })),
      KEY,
    )
    await expect(bridge.about(null)).rejects.toThrow(new HostLost('not-let-in'))
  })

  it('fails where the answer is no message', async () => {
    const bridge = hostBridge(
      ENGLISH,
      host(() => new Response('<!doctype html>')),
      KEY,
    )
    await expect(bridge.about(null)).rejects.toThrow()
  })

  it('says what to do where nobody answers', async () => {
    const bridge = hostBridge(
      ENGLISH,
      host(() => Promise.reject(new TypeError('Failed to fetch'))),
      KEY,
    )
    await expect(bridge.about(null)).rejects.toThrow(new HostLost('ended'))
    expect(faultSentence(ENGLISH, new HostLost('ended'))).toContain('npm run browser')
  })
})

describe('the way to the program', () => {
  it('is the desktop program’s own where there is one', async () => {
    const about = vi.fn(() => Promise.resolve(ABOUT))
    const send = host(() => new Response(encodeMessage(null)))
    vi.stubGlobal('window', { visitReport: { about } })
    vi.stubGlobal('fetch', send)
    expect(await chooseBridge(ENGLISH)?.about(null)).toEqual(ABOUT)
    expect(send).not.toHaveBeenCalled()
  })

  /** A browser in whose page the host left a key, or did not, and what the tab keeps. */
  function inBrowser(given: string | null, kept: string | null = null) {
    const send = host(() => new Response(encodeMessage(ABOUT)))
    const tab = new Map(kept === null ? [] : [['visit-report-key', kept]])
    const meta = given === null ? null : { content: given, remove: vi.fn() }
    const replaceState = vi.fn()
    vi.stubGlobal('window', {})
    vi.stubGlobal('fetch', send)
    vi.stubGlobal('document', { querySelector: () => meta })
    vi.stubGlobal('location', { pathname: '/open' })
    vi.stubGlobal('history', { replaceState })
    vi.stubGlobal('sessionStorage', {
      getItem: (name: string) => tab.get(name) ?? null,
      setItem: (name: string, value: string) => void tab.set(name, value),
    })
    const shown = () => new Headers(send.mock.calls[0][1]?.headers).get('authorization')
    return { tab, meta, replaceState, shown }
  }

  it('is the browser host in a browser, by the key of the page, which the tab keeps', async () => {
    const { tab, meta, replaceState, shown } = inBrowser('one', 'of a program before')
    expect(await chooseBridge(ENGLISH)?.about(null)).toEqual(ABOUT)
    expect(shown()).toBe('Bearer one')
    expect([...tab]).toEqual([['visit-report-key', 'one']])
    expect(meta?.remove).toHaveBeenCalledOnce()
    // The address with the token is not left where a person reads or copies it.
    expect(replaceState).toHaveBeenCalledWith(null, '', '/')
  })

  it('is the same after the page was loaded again', async () => {
    const { shown } = inBrowser(null, 'one')
    await chooseBridge(ENGLISH)?.about(null)
    expect(shown()).toBe('Bearer one')
  })

  it('is the same where the browser keeps nothing, until the page is loaded again', async () => {
    const { shown } = inBrowser('one')
    const refuses = () => {
      throw new DOMException('no storage', 'SecurityError')
    }
    vi.stubGlobal('sessionStorage', { getItem: refuses, setItem: refuses })
    await chooseBridge(ENGLISH)?.about(null)
    expect(shown()).toBe('Bearer one')
  })

  it('is none where the page was not let in', () => {
    inBrowser(null)
    expect(chooseBridge(ENGLISH)).toBeNull()
  })
})

describe('an open window', () => {
  it('tells the host each minute that it is there, also after one was not heard', () => {
    vi.useFakeTimers()
    const about = vi.fn(() => Promise.reject(new HostLost('ended')))
    keepAwake({ about } as unknown as Bridge)
    expect(about).not.toHaveBeenCalled()
    vi.advanceTimersByTime(3 * 60_000)
    expect(about).toHaveBeenCalledTimes(3)
  })
})
