import { connect } from 'node:net'

export interface RawResponse {
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: string
}

/**
 * Sends bytes to a port of this computer as they are and reads until the other end closes or stays silent
 * after a whole answer. Status 0: no answer came.
 */
export function rawHttp(
  port: number,
  request: string | Uint8Array,
  address = '127.0.0.1',
): Promise<RawResponse> {
  return new Promise((resolve) => {
    const socket = connect(port, address)
    const pieces: Buffer[] = []
    const finish = () => {
      socket.destroy()
      resolve(parsed(Buffer.concat(pieces).toString('latin1')))
    }
    socket.on('data', (piece: Buffer) => {
      pieces.push(piece)
      if (isWhole(Buffer.concat(pieces).toString('latin1'))) finish()
    })
    socket.on('error', finish)
    socket.on('close', finish)
    socket.on('connect', () => socket.write(request))
  })
}

function isWhole(text: string): boolean {
  const end = text.indexOf('\r\n\r\n')
  const length = /\r\ncontent-length: (\d+)/i.exec(text)?.[1]
  return end >= 0 && length !== undefined && text.length >= end + 4 + Number(length)
}

function parsed(text: string): RawResponse {
  const [head, ...rest] = text.split('\r\n\r\n')
  const [statusLine, ...lines] = head.split('\r\n')
  const headers = lines.map((line) => {
    const colon = line.indexOf(':')
    return [line.slice(0, colon).toLowerCase(), line.slice(colon + 1).trim()] as const
  })
  return {
    status: Number(statusLine.split(' ')[1] ?? 0),
    headers: Object.fromEntries(headers),
    body: rest.join('\r\n\r\n'),
  }
}
