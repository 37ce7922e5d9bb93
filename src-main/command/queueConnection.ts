import type * as Bullmq from 'bullmq'
import type { Redis } from 'ioredis'
import { QueueFault } from './queueFault'

// The way to a Redis: the only connection that the program ever opens, and only where --queue is said.

/** The packages of a queue, as package.json names them. */
const PACKAGES = 'bullmq@6.7.0 ioredis@6.0.0'
const PORT = 6379
/** A Redis that is restarted answers within seconds; one that is moved within minutes. */
const WAIT_MS = 180_000
const RETRY_MS = 1_000
/** A connection that takes commands and answers none this long is given up and opened anew. */
const SILENT_MS = 30_000

type Environment = Readonly<Record<string, string | undefined>>

interface QueueAddress {
  readonly host: string
  readonly port: number
  readonly db: number
  readonly username?: string
  readonly password?: string
  readonly tls?: { readonly servername: string }
}

/** The address of a Redis, its user and password from the environment where it has none. Throws `QueueFault`. */
export function queueAddress(text: string, env: Environment): QueueAddress {
  try {
    const { protocol, hostname, port, username, password, pathname, search, hash } = new URL(text)
    const [, database] = /^\/?(\d*)$/.exec(pathname) ?? []
    const isRedis = protocol === 'redis:' || protocol === 'rediss:'
    // What stands behind may be the rest of a password; nothing of such an address is used.
    if (!isRedis || hostname === '' || database === undefined || search + hash !== '')
      throw new Error(protocol)
    const user = decodeURIComponent(username) || env.REDIS_USERNAME
    const secret = decodeURIComponent(password) || env.REDIS_PASSWORD
    const host = hostname.replace(/^\[(.*)\]$/, '$1')
    return {
      ...{ host, port: port === '' ? PORT : Number(port), db: Number(database) },
      ...(user && { username: user }),
      ...(secret && { password: secret }),
      ...(protocol === 'rediss:' && { tls: { servername: host } }),
    }
  } catch {
    throw new QueueFault('address')
  }
}

/** What is told while a queue is worked at. */
export interface QueueTold {
  readonly away: (host: string) => void
  readonly back: () => void
  readonly noWorkers: () => void
}

/** The libraries and a connection that comes back by itself. */
export interface QueueConnection {
  readonly bullmq: typeof Bullmq
  readonly client: Redis
  /** Rejects with `QueueFault` once no Redis has answered for minutes. */
  readonly lost: Promise<never>
  readonly disconnect: () => void
}

/** Connects to a Redis that can hold a queue. Throws `QueueFault`. */
export async function connectQueue(
  text: string,
  env: Environment,
  told: Pick<QueueTold, 'away' | 'back'>,
): Promise<QueueConnection> {
  const address = queueAddress(text, env)
  const [bullmq, { Redis }] = await Promise.all([import('bullmq'), import('ioredis')]).catch(() => {
    throw new QueueFault('packages', PACKAGES)
  })
  const place = `${address.host}:${address.port}`
  let isUp = false
  const client = new Redis({
    ...address,
    ...{ lazyConnect: true, maxRetriesPerRequest: null, socketTimeout: SILENT_MS },
    retryStrategy: () => (isUp ? RETRY_MS : null),
  })
  let last: unknown = null
  client.on('error', (error) => (last ??= error))
  try {
    await client.connect()
    const policy = /^maxmemory_policy:(\S+)/m.exec(await client.info())?.[1] ?? 'noeviction'
    if (policy !== 'noeviction') throw new QueueFault('evicts', policy)
  } catch (error) {
    client.disconnect()
    throw queueFault(last ?? error) ?? new QueueFault('unreachable', `${place}${codeBeside(last ?? error)}`)
  }
  isUp = true
  let giveUp: NodeJS.Timeout | null = null
  const lost = new Promise<never>((_, reject) => {
    client.on('close', () => {
      if (!isUp || giveUp !== null) return
      told.away(place)
      giveUp = setTimeout(() => {
        reject(new QueueFault('lost', place))
        // What waits for an answer fails.
        client.disconnect()
      }, WAIT_MS)
    })
  })
  // Whoever waits for something races with it; where nobody does, it is no fault of the program.
  lost.catch(() => undefined)
  client.on('ready', () => {
    if (giveUp === null) return
    clearTimeout(giveUp)
    giveUp = null
    told.back()
  })
  return {
    ...{ bullmq, client, lost },
    disconnect: () => {
      isUp = false
      if (giveUp !== null) clearTimeout(giveUp)
      client.disconnect()
    },
  }
}

/** The faults that do not pass by waiting, by the first word of an error of the protocol (redis.io, RESP: simple errors). */
const FAULT_OF: Readonly<Record<string, 'login' | 'full' | 'refused'>> = {
  WRONGPASS: 'login',
  NOAUTH: 'login',
  OOM: 'full',
  NOPERM: 'refused',
  READONLY: 'refused',
  MISCONF: 'refused',
}

/** The fault that an error of Redis stands for; null of others. */
export function queueFault(error: unknown): QueueFault | null {
  if (error instanceof QueueFault) return error
  const [word] = String((error as Partial<Error>).message).split(' ', 1)
  return Object.hasOwn(FAULT_OF, word) ? new QueueFault(FAULT_OF[word], word) : null
}

function codeBeside(error: unknown): string {
  const { code } = error as NodeJS.ErrnoException
  return typeof code === 'string' && /^\w+$/.test(code) ? ` (${code})` : ''
}
