import { networkInterfaces } from 'node:os'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { MESSAGE_LIMITS } from '../../../src-core/bridge/limits'
import { decodeMessage, encodeMessage } from '../../../src-core/bridge/wire'
import { ENGLISH } from '../../../src-core/wording/english'
import { type BrowserHost, startBrowserHost } from '../../../src-main/browser/browserHost'
import type { Reply } from '../../../src-main/window/gate'
import { rawHttp, type RawResponse } from '../../helpers/rawHttp'

// The browser host, spoken to over a bare socket.

const SECRET_ANSWER = 'figures of a visit'
const PAGE = '<html><head><title>the page itself</title></head></html>'
const ASSETS = new Map([
  ['/', { type: 'text/html; charset=utf-8', bytes: new TextEncoder().encode(PAGE) }],
  ['/assets/index.js', { type: 'text/javascript; charset=utf-8', bytes: new TextEncoder().encode('let a') }],
])

const answer = vi.fn((channel: string): Promise<Reply> => {
  if (channel === 'about') return Promise.resolve({ kind: 'answered', result: SECRET_ANSWER })
  if (channel === 'addLogs') return Promise.resolve({ kind: 'bad-argument' })
  if (channel === 'makePdf') return Promise.resolve({ kind: 'fault' })
  return Promise.resolve({ kind: 'unknown-channel' })
})
const onActivity = vi.fn()
const onUsed = vi.fn<(entry: string) => void>()

let host: BrowserHost
let port = 0
let token = ''
beforeEach(async () => {
  vi.clearAllMocks()
  host = await startBrowserHost({ words: ENGLISH, assets: ASSETS, answer, onActivity, onUsed })
  port = Number(new URL(host.origin).port)
  token = tokenOf(host.entry)
})
afterEach(() => host.close())

/** A request's text. Headers with an empty value are left out. */
function request(line: string, headers: Readonly<Record<string, string>> = {}, body = ''): string {
  const all = { Host: `127.0.0.1:${port}`, ...headers }
  const lines = Object.entries(all).filter(([, value]) => value !== '')
  return `${line} HTTP/1.1\r\n${lines.map(([name, value]) => `${name}: ${value}\r\n`).join('')}\r\n${body}`
}

const tokenOf = (entry: string) => new URL(entry).searchParams.get('token') ?? ''
const open = (given: string) => rawHttp(port, request(`GET /open?token=${given}`))
/** The key in a page; null where there is none. */
const keyIn = ({ body }: RawResponse) =>
  /<head><meta name="visit-report-key" content="([\w-]{43})" \/>/.exec(body)?.[1] ?? null

/** Goes in by the token and returns the header that the page shows from then on. */
async function letIn(): Promise<string> {
  return `Bearer ${keyIn(await open(token)) ?? 'none'}`
}

const NULL_MESSAGE = Buffer.from(encodeMessage(null)).toString('latin1')

/** A right message on a channel, with what a hostile one changes. */
function post(key: string, changes: Readonly<Record<string, string>> = {}, channel = 'about'): string {
  const headers = {
    Origin: host.origin,
    Authorization: key,
    'Content-Type': 'application/octet-stream',
    'Content-Length': String(NULL_MESSAGE.length),
    ...changes,
  }
  return request(`POST /bridge/${channel}`, headers, NULL_MESSAGE)
}

describe('the way in', () => {
  it('is bound to 127.0.0.1 alone', async () => {
    expect(host.origin).toBe(`http://127.0.0.1:${port}`)
    const others = Object.values(networkInterfaces())
      .flatMap((addresses) => addresses ?? [])
      .map(({ address }) => address)
      .filter((address) => address !== '127.0.0.1')
    for (const address of ['127.0.0.2', '::1', ...others]) {
      expect((await rawHttp(port, request('GET /'), address)).status, address).toBe(0)
    }
  })

  it('has a port and a token of its own at every start', async () => {
    const another = await startBrowserHost({ words: ENGLISH, assets: ASSETS, answer, onActivity, onUsed })
    expect(another.origin).not.toBe(host.origin)
    expect(new URL(another.entry).searchParams.get('token')).not.toBe(token)
    // 43 letters of 6 bits hold the 256 bits of the token.
    expect(token).toMatch(/^[\w-]{43}$/)
    await another.close()
  })

  it('turns the token into a page with a key, and sets no cookie: one would go to every port', async () => {
    const response = await open(token)
    expect(response.status).toBe(200)
    expect(response.body).toContain('the page itself')
    expect(keyIn(response)).not.toBeNull()
    expect(response.body).not.toContain(token)
    expect(Object.keys(response.headers)).not.toContain('set-cookie')
  })

  it('takes the token once, and tells the terminal another one, once', async () => {
    const first = keyIn(await open(token))
    for (let i = 0; i < 2; i++) {
      const again = await open(token)
      // The page that was let in keeps its key; this one gets none.
      expect([again.status, keyIn(again)]).toEqual([200, null])
    }
    expect(onUsed).toHaveBeenCalledTimes(1)
    const next = tokenOf(onUsed.mock.calls[0][0])
    expect(next).toMatch(/^[\w-]{43}$/)
    expect(next).not.toBe(token)
    // The same visit in another tab or browser.
    expect(keyIn(await open(next))).toBe(first)
    expect([keyIn(await open(next)), keyIn(await open(token))]).toEqual([null, null])
  })

  it('tells no new token to one who knows none', async () => {
    await letIn()
    for (const given of [`${token}x`, '', 'A'.repeat(43)]) expect((await open(given)).status).toBe(403)
    await rawHttp(port, request('GET /'))
    expect(onUsed).not.toHaveBeenCalled()
  })

  it('is not used up by a wrong token', async () => {
    expect((await open(`${token}x`)).status).toBe(403)
    expect(await letIn()).toMatch(/^Bearer [\w-]{43}$/)
  })
})

describe('what the browser gets once it is in', () => {
  const STRICT = {
    'content-security-policy':
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; " +
      "connect-src 'self'; frame-src blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  }

  it('is the built page and its files, never kept and with a strict policy', async () => {
    for (const page of [await open(token), await rawHttp(port, request('GET /'))]) {
      expect([page.status, page.body.includes('the page itself')]).toEqual([200, true])
      expect(page.headers).toMatchObject({ ...STRICT, 'content-type': 'text/html; charset=utf-8' })
    }
    const script = await rawHttp(port, request('GET /assets/index.js?v=1'))
    expect(script).toMatchObject({ status: 200, body: 'let a' })
    expect(script.headers).toMatchObject(STRICT)
  })

  it('is the page without the key wherever it is not let in', async () => {
    await letIn()
    expect((await rawHttp(port, request('GET /'))).body).toBe(PAGE)
    expect((await rawHttp(port, request('GET /?token=1'))).body).toBe(PAGE)
  })

  it('is the answer to its message', async () => {
    const response = await rawHttp(port, post(await letIn()))
    expect(response.status).toBe(200)
    expect(response.headers).toMatchObject({ ...STRICT, 'content-type': 'application/octet-stream' })
    expect(decodeMessage(Buffer.from(response.body, 'latin1'))).toBe(SECRET_ANSWER)
    expect(answer.mock.calls).toEqual([['about', null]])
  })

  it('is a bare status where the gate refuses', async () => {
    const key = await letIn()
    const statuses = async (channel: string) => (await rawHttp(port, post(key, {}, channel))).status
    expect(await statuses('addLogs')).toBe(400)
    expect(await statuses('quit')).toBe(404)
    expect(await statuses('makePdf')).toBe(500)
  })

  it('keeps the host awake, and nothing else does', async () => {
    await rawHttp(port, request('GET /'))
    await rawHttp(port, request('GET /open?token=wrong'))
    await rawHttp(port, post('Bearer wrong'))
    expect(onActivity).not.toHaveBeenCalled()
    const key = await letIn()
    expect(onActivity).toHaveBeenCalledTimes(1)
    await rawHttp(port, post(key))
    expect(onActivity.mock.calls.length).toBeGreaterThan(1)
  })
})

describe('hostile requests', () => {
  type Hostile = readonly [what: string, text: (key: string) => string]
  const wrongHost = (value: string): Hostile => [
    `Host ${JSON.stringify(value)}`,
    (key) => post(key, { Host: value }),
  ]
  const wrongOrigin = (value: string): Hostile => [
    `Origin ${JSON.stringify(value)}`,
    (key) => post(key, { Origin: value }),
  ]
  const target = (line: string, status = 404): readonly [...Hostile, number] => [
    line,
    (key) => request(line, { Authorization: key, Origin: host.origin, 'Content-Length': '0' }),
    status,
  ]

  const FORBIDDEN: readonly Hostile[] = [
    wrongHost('localhost'),
    wrongHost('127.0.0.1'),
    wrongHost('127.0.0.1:80'),
    wrongHost('example.org'),
    wrongHost('127.0.0.1.example.org'),
    wrongHost('[::1]'),
    wrongOrigin(''),
    wrongOrigin('null'),
    wrongOrigin('https://example.org'),
    wrongOrigin('http://127.0.0.1'),
    wrongOrigin('http://localhost'),
    ['the right port at localhost', (key) => post(key, { Host: `localhost:${port}` })],
    ['the page at another address', () => request('GET /', { Host: `localhost:${port}` })],
    ['localhost as the origin', (key) => post(key, { Origin: `http://localhost:${port}` })],
    ['the origin by https', (key) => post(key, { Origin: `https://127.0.0.1:${port}` })],
    ['another port as the origin', (key) => post(key, { Origin: `http://127.0.0.1:${port + 1}` })],
    ['an address as the origin', (key) => post(key, { Origin: `${host.origin}/` })],
    ['no key', () => post('')],
    ['an empty key', () => post('Bearer ')],
    ['a guessed key', () => post(`Bearer ${'A'.repeat(43)}`)],
    ['the token as the key', () => post(`Bearer ${token}`)],
    ['the key as a cookie', (key) => post('', { Cookie: `visit-report-key=${key.slice(7)}` })],
    ['the key as a password', (key) => post(key.replace('Bearer', 'Basic'))],
    ['the key alone', (key) => post(key.slice(7))],
    ['no token', () => request('GET /open')],
    ['an empty token', () => request('GET /open?token=')],
    ['a token of another length', () => request('GET /open?token=A')],
  ]

  it.each(FORBIDDEN)('are turned away: %s', async (_what, text) => {
    const response = await rawHttp(port, text(await letIn()))
    expect(response.status).toBe(403)
    expectNothingTold(response)
  })

  it.each([
    target('GET /package.json'),
    target('GET /../package.json'),
    target('GET /assets/../../package.json'),
    target('GET /%2e%2e/package.json'),
    target('GET /..%5cpackage.json'),
    target('GET /..\\package.json'),
    target('GET /assets/index.js%00'),
    target('GET //etc/passwd'),
    target('GET /etc/passwd'),
    target('GET /assets'),
    target('GET /assets/'),
    target('GET /index.js'),
    target('GET http://127.0.0.1/'),
    target('GET *'),
    target('GET /bridge/about', 405),
    target('HEAD /', 405),
    target('PUT /bridge/about', 405),
    target('DELETE /', 405),
    target('OPTIONS /bridge/about', 405),
    target('PATCH /bridge/about', 405),
    target('TRACE /', 405),
    target('POST /', 405),
    target('POST /assets/index.js', 405),
    target('POST /open', 405),
  ])('find nothing: %s', async (_what, text, status) => {
    const response = await rawHttp(port, text(await letIn()))
    expect(response.status).toBe(status)
    expectNothingTold(response)
  })

  it.each<readonly [string, Readonly<Record<string, string>>, number]>([
    ['a form', { 'Content-Type': 'application/x-www-form-urlencoded' }, 415],
    ['plain text', { 'Content-Type': 'text/plain' }, 415],
    ['no type', { 'Content-Type': '' }, 415],
    ['no length', { 'Content-Length': '', 'Transfer-Encoding': 'chunked' }, 411],
    ['a body larger than the limit', { 'Content-Length': String(MESSAGE_LIMITS.message + 1) }, 413],
    ['a body of a terabyte', { 'Content-Length': '1000000000000' }, 413],
    ['a cut message', { 'Content-Length': '3' }, 400],
  ])('are no messages: %s', async (_what, changes, status) => {
    const response = await rawHttp(port, post(await letIn(), changes))
    expect(response.status).toBe(status)
    expectNothingTold(response)
  })

  it.each([
    ['no HTTP', 'quit\r\n\r\n'],
    ['no Host', 'GET / HTTP/1.1\r\n\r\n'],
    [
      'two lengths',
      'POST /bridge/about HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n',
    ],
    ['a length below zero', 'POST /bridge/about HTTP/1.1\r\nHost: a\r\nContent-Length: -1\r\n\r\n'],
    ['endless headers', `GET / HTTP/1.1\r\nHost: a\r\nA: ${'a'.repeat(100_000)}\r\n\r\n`],
    ['a tunnel', 'CONNECT example.org:443 HTTP/1.1\r\nHost: example.org:443\r\n\r\n'],
  ])('are not answered with data: %s', async (_what, text) => {
    const response = await rawHttp(port, text)
    expect(response.status === 0 || response.status >= 400).toBe(true)
    expectNothingTold(response)
  })

  function expectNothingTold(response: RawResponse): void {
    expect(answer).not.toHaveBeenCalled()
    expect(response.body).not.toContain('the page itself')
    expect(response.body).not.toContain('let a')
    const allowing = Object.keys(response.headers).filter((name) => name.startsWith('access-control-'))
    expect(allowing).toEqual([])
  }
})
