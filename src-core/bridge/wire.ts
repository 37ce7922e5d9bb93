// Messages as bytes, for carriers that have no structured clone. A message is the length of a JSON text
// (four bytes, big-endian), that text, then the byte arrays end to end. In the text a byte array stands as
// {"$bytes": its length}; they follow one another in the order of the text.

/** What the browser host calls the key in the head of the page that it lets in. */
export const KEY_NAME = 'visit-report-key'

const LENGTH_BYTES = 4
const KEY = '$bytes'

/** A value of plain objects, arrays, texts, numbers, booleans, null and byte arrays as one message. */
export function encodeMessage(value: unknown): Uint8Array<ArrayBuffer> {
  const { head, parts } = encodeParts(value, (item) => (item instanceof Uint8Array ? item : null))
  const message = new Uint8Array(parts.reduce((sum, part) => sum + part.length, head.length))
  message.set(head)
  let end = head.length
  for (const part of parts) {
    message.set(part, end)
    end += part.length
  }
  return message
}

/**
 * The same message in pieces, for a carrier that sends bytes from where they lie. `asBytes` gives what stands for a
 * byte array, null for everything else.
 */
export function encodeParts<Bytes extends { readonly length: number } | { readonly size: number }>(
  value: unknown,
  asBytes: (item: unknown) => Bytes | null,
): { readonly head: Uint8Array<ArrayBuffer>; readonly parts: readonly Bytes[] } {
  const parts: Bytes[] = []
  const text = JSON.stringify(value, (_key, item: unknown) => {
    const bytes = asBytes(item)
    if (bytes === null) return item
    parts.push(bytes)
    return { [KEY]: 'size' in bytes ? bytes.size : bytes.length }
  })
  const letters = new TextEncoder().encode(text)
  const head = new Uint8Array(LENGTH_BYTES + letters.length)
  new DataView(head.buffer).setUint32(0, letters.length)
  head.set(letters, LENGTH_BYTES)
  return { head, parts }
}

/** The value of a message; throws where the message is cut, too long or otherwise none. */
export function decodeMessage(message: Uint8Array): unknown {
  if (message.length < LENGTH_BYTES) throw new Error('Message is cut')
  const headLength = new DataView(message.buffer, message.byteOffset).getUint32(0)
  let end = LENGTH_BYTES + headLength
  if (end > message.length) throw new Error('Message is cut')
  const text = new TextDecoder('utf-8', { fatal: true }).decode(message.subarray(LENGTH_BYTES, end))
  const value: unknown = JSON.parse(text, (_key, item: unknown) => {
    const length = bytesLength(item)
    if (length === null) return item
    if (end + length > message.length) throw new Error('Message is cut')
    end += length
    return message.slice(end - length, end)
  })
  if (end !== message.length) throw new Error('Message is too long')
  return value
}

function bytesLength(item: unknown): number | null {
  if (typeof item !== 'object' || item === null || !(KEY in item)) return null
  const length = item[KEY]
  if (typeof length !== 'number' || !Number.isInteger(length) || length < 0) {
    throw new Error('Message gives no length of its bytes')
  }
  return length
}
