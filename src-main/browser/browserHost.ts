import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { decodeMessage, encodeMessage, KEY_NAME } from '../../src-core/bridge/wire'
import type { Asset, Assets } from '../window/assets'
import type { Reply } from '../window/gate'
import { securityHeaders } from '../window/securityHeaders'
import type { Words } from '../../src-core/wording/words'

export interface HostOptions {
  readonly words: Words
  readonly assets: Assets
  /** The gate, with the handlers behind it. */
  answer(channel: string, argument: unknown): Promise<Reply>
  /** Told of every request of the page that was let in. */
  onActivity(): void
  /** An address was opened that was used before: the one to open instead. */
  onUsed(entry: string): void
}

export interface BrowserHost {
  /** 'http://127.0.0.1:PORT'. */
  readonly origin: string
  /** The address to open, with a token that works once. */
  readonly entry: string
  close(): Promise<void>
}

const ENTRY_PATH = '/open'
const LOOPBACK = '127.0.0.1'
const SECRET_BYTES = 32
export const BRIDGE_PATH = '/bridge/'
export const MESSAGE_TYPE = 'application/octet-stream'
const STATUS = { 'unknown-channel': 404, 'bad-argument': 400, fault: 500 } as const

/**
 * Serves the window to the user's own browser, and answers nothing else: bound to 127.0.0.1 on a port of the system's
 * choice. A token that works once gives its page a key, which every message shows in a header. A cookie would go to
 * every port of this computer, another user's too. The Host header must be this address (against DNS rebinding), the
 * Origin of every message this page. The page's own files hold nothing of a visit: they are anybody's.
 */
export async function startBrowserHost(options: HostOptions): Promise<BrowserHost> {
  const { REFUSED } = options.words.browserHost
  const key = newSecret()
  const keyHash = hashOf(`Bearer ${key}`)
  const page = options.assets.get('/')
  const pageWithKey = page && withKey(page, key)
  let token = newSecret()
  let tokenHash = hashOf(token)
  const used: Buffer[] = []
  /** The token that was told instead of a used one. */
  let told = ''

  const server = createServer((request, response) => {
    respond(request, response).catch(() => {
      if (response.headersSent) response.destroy()
      else refuse(response, 500, REFUSED.fault)
    })
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(0, LOOPBACK, resolve)
  })
  const { port } = server.address() as AddressInfo
  const host = `${LOOPBACK}:${port}`
  const origin = `http://${host}`
  const entry = () => `${origin}${ENTRY_PATH}?token=${token}`

  async function respond(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const [path, query] = splitTarget(request.url ?? '')
    if (request.headers.host !== host) return refuse(response, 403, REFUSED.address)
    if (request.method === 'GET')
      return path === ENTRY_PATH ? letIn(query, response) : sendAsset(path, response)
    if (request.method !== 'POST') return refuse(response, 405, REFUSED.way)
    if (request.headers.origin !== origin) return refuse(response, 403, REFUSED.page)
    if (!matches(request.headers.authorization, keyHash)) return refuse(response, 403, REFUSED.letIn)
    return answerMessage(path, request, response)
  }

  function letIn(query: string, response: ServerResponse): void {
    const given = new URLSearchParams(query).get('token')
    if (given !== null && used.some((hash) => matches(given, hash))) {
      if (told !== token) options.onUsed(entry())
      told = token
      // The page that was let in has its key; any other one says where the new address stands.
      return sendAsset('/', response)
    }
    if (pageWithKey === undefined || !matches(given, tokenHash)) {
      return refuse(response, 403, REFUSED.token)
    }
    used.push(tokenHash)
    token = newSecret()
    tokenHash = hashOf(token)
    options.onActivity()
    send(response, 200, { 'content-type': pageWithKey.type }, pageWithKey.bytes)
  }

  function sendAsset(path: string, response: ServerResponse): void {
    const asset = options.assets.get(path)
    if (!asset) return refuse(response, path.startsWith(BRIDGE_PATH) ? 405 : 404, REFUSED.nothing)
    send(response, 200, { 'content-type': asset.type }, asset.bytes)
  }

  async function answerMessage(
    path: string,
    request: IncomingMessage,
    response: ServerResponse,
  ): Promise<void> {
    if (!path.startsWith(BRIDGE_PATH)) return refuse(response, 405, REFUSED.way)
    if (request.headers['content-type'] !== MESSAGE_TYPE) return refuse(response, 415, REFUSED.message)
    const length = Number(request.headers['content-length'] ?? NaN)
    if (!Number.isInteger(length)) return refuse(response, 411, REFUSED.length)
    if (length > MESSAGE_LIMITS.message) return refuse(response, 413, REFUSED.size)
    const message = await readBody(request, length)
    let argument: unknown
    try {
      argument = decodeMessage(message)
    } catch {
      return refuse(response, 400, REFUSED.message)
    }
    options.onActivity()
    const reply = await options.answer(path.slice(BRIDGE_PATH.length), argument)
    options.onActivity()
    if (reply.kind !== 'answered') return refuse(response, STATUS[reply.kind], REFUSED.answer)
    send(response, 200, { 'content-type': MESSAGE_TYPE }, encodeMessage(reply.result))
  }

  return {
    origin,
    entry: entry(),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}

const HEADERS = securityHeaders("'self'", 'blob:')

function send(
  response: ServerResponse,
  status: number,
  headers: Readonly<Record<string, string>>,
  body: Uint8Array = new Uint8Array(),
): void {
  response.writeHead(status, { ...HEADERS, ...headers, 'content-length': body.length }).end(body)
}

/** A refusal closes the connection: what is left of the request is not read. */
function refuse(response: ServerResponse, status: number, sentence: string): void {
  const headers = { 'content-type': 'text/plain; charset=utf-8', connection: 'close' }
  send(response, status, headers, new TextEncoder().encode(`${sentence}\n`))
}

/** Path and query of a request target, as they came: nothing is decoded or resolved. */
function splitTarget(target: string): [path: string, query: string] {
  const mark = target.indexOf('?')
  return mark < 0 ? [target, ''] : [target.slice(0, mark), target.slice(mark + 1)]
}

async function readBody(request: IncomingMessage, length: number): Promise<Uint8Array> {
  const body = new Uint8Array(length)
  let end = 0
  for await (const chunk of request as AsyncIterable<Uint8Array>) {
    body.set(chunk, end)
    end += chunk.length
  }
  return body.subarray(0, end)
}

/** The page with the key in its head. */
function withKey({ type, bytes }: Asset, key: string): Asset {
  const text = new TextDecoder().decode(bytes)
  const named = `<meta name="${KEY_NAME}" content="${key}" />`
  return { type, bytes: new TextEncoder().encode(text.replace('<head>', `<head>${named}`)) }
}

function newSecret(): string {
  return randomBytes(SECRET_BYTES).toString('base64url')
}

function hashOf(secret: string): Buffer {
  return createHash('sha256').update(secret).digest()
}

/** Compared by hash, so that the time taken tells nothing of the secret. */
function matches(given: string | null | undefined, hash: Buffer): boolean {
  return typeof given === 'string' && timingSafeEqual(hashOf(given), hash)
}
