// Messages as bytes, for carriers that have no structured clone. A message is the length of a JSON text
// (four bytes, big-endian), that text, then the byte arrays end to end. In the text a byte array stands as
// {"$bytes": its length}; they follow one another in the order of the text.

const LENGTH_BYTES = 4
const KEY = '$bytes'

/** A value of plain objects, arrays, texts, numbers, booleans, null and byte arrays as one message. */
export function encodeMessage(value: unknown): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = []
  const text = JSON.stringify(value, (_key, item: unknown) => {
    if (!(item instanceof Uint8Array)) return item
    parts.push(item)
    return { [KEY]: item.length }
  })
  const head = new TextEncoder().encode(text)
  const total = parts.reduce((sum, part) => sum + part.length, LENGTH_BYTES + head.length)
  const message = new Uint8Array(total)
  new DataView(message.buffer).setUint32(0, head.length)
  message.set(head, LENGTH_BYTES)
  let end = LENGTH_BYTES + head.length
  for (const part of parts) {
    message.set(part, end)
    end += part.length
  }
  return message
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
