import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Bridge } from '../../src-core/bridge/contract'
import { decodeMessage, encodeMessage } from '../../src-core/bridge/wire'
import { chooseBridge, HostEnded, hostBridge } from '../../src-renderer/bridge'
import { keepAwake } from '../../src-renderer/keepAwake'

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
    const bridge = hostBridge(send)
    const logs = [{ name: 'meter.csv', bytes: new Uint8Array([0, 255, 10]) }]
    await bridge.about(null)
    await bridge.addLogs({ logs })
    await bridge.makePdf({ revision: 2 })
    expect(send.mock.calls.map(([address]) => address)).toEqual([
      '/bridge/about',
      '/bridge/addLogs',
      '/bridge/makePdf',
    ])
    for (const [, init] of send.mock.calls) {
      expect(init).toMatchObject({ method: 'POST', headers: { 'content-type': 'application/octet-stream' } })
    }
    const sent = send.mock.calls.map(([, init]) => decodeMessage(init?.body as Uint8Array))
    expect(sent).toEqual([null, { logs }, { revision: 2 }])
  })

  it('sends chosen files as the same message, from where they lie', async () => {
    const send = host(() => new Response(encodeMessage(null)))
    await hostBridge(send).addFiles([new File(['Time'], 'a.csv'), new File(['x,y'], 'b.csv')])
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
    const bridge = hostBridge(host(() => new Response(encodeMessage(made))))
    expect(await bridge.makePdf({ revision: 2 })).toEqual(made)
  })

  it.each([400, 403, 413, 500])(
    'fails where the host refuses with %i, whatever else it says',
    async (status) => {
      const bridge = hostBridge(host(() => new Response(encodeMessage(ABOUT), { status })))
      await expect(bridge.about(null)).rejects.toThrow(new Error(`Message refused: ${status}`))
    },
  )

  it('fails where the answer is no message', async () => {
    const bridge = hostBridge(host(() => new Response('<!doctype html>')))
    await expect(bridge.about(null)).rejects.toThrow()
  })

  it('says what to do where nobody answers', async () => {
    const bridge = hostBridge(host(() => Promise.reject(new TypeError('Failed to fetch'))))
    await expect(bridge.about(null)).rejects.toThrow(HostEnded)
    expect(new HostEnded().message).toContain('npm run browser')
  })
})

describe('the way to the program', () => {
  it('is the desktop program’s own where there is one', async () => {
    const about = vi.fn(() => Promise.resolve(ABOUT))
    const send = host(() => new Response(encodeMessage(null)))
    vi.stubGlobal('window', { visitReport: { about } })
    vi.stubGlobal('fetch', send)
    expect(await chooseBridge().about(null)).toEqual(ABOUT)
    expect(send).not.toHaveBeenCalled()
  })

  it('is the browser host in a browser', async () => {
    vi.stubGlobal('window', {})
    vi.stubGlobal(
      'fetch',
      host(() => new Response(encodeMessage(ABOUT))),
    )
    expect(await chooseBridge().about(null)).toEqual(ABOUT)
  })
})

describe('an open window', () => {
  it('tells the host each minute that it is there, also after one was not heard', () => {
    vi.useFakeTimers()
    const about = vi.fn(() => Promise.reject(new HostEnded()))
    keepAwake({ about } as unknown as Bridge)
    expect(about).not.toHaveBeenCalled()
    vi.advanceTimersByTime(3 * 60_000)
    expect(about).toHaveBeenCalledTimes(3)
  })
})
