import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { decodeMessage, encodeMessage } from '../../../src-core/bridge/wire'

const bytesOf = (text: string) => new TextEncoder().encode(text)

/** A message with this JSON text and these bytes behind it. */
function message(text: string, ...behind: number[]): Uint8Array {
  const head = bytesOf(text)
  return new Uint8Array([0, 0, head.length >> 8, head.length & 255, ...head, ...behind])
}

describe('messages as bytes', () => {
  it('are the length of a JSON text, the text, then the byte arrays', () => {
    const value = { logs: [{ name: 'a', bytes: new Uint8Array([7, 8]) }, { bytes: new Uint8Array([9]) }] }
    const text = '{"logs":[{"name":"a","bytes":{"$bytes":2}},{"bytes":{"$bytes":1}}]}'
    expect(encodeMessage(value)).toEqual(message(text, 7, 8, 9))
  })

  it('give back any plain value, its byte arrays among the rest', () => {
    const plain = fc.letrec((tie) => ({
      value: fc.oneof(
        { depthSize: 'small' },
        fc.constant(null),
        fc.boolean(),
        fc.integer(),
        fc.string({ unit: 'grapheme' }),
        fc.uint8Array(),
        fc.array(tie('value')),
        fc.dictionary(
          fc.string().filter((key) => key !== '$bytes'),
          tie('value'),
          { noNullPrototype: true },
        ),
      ),
    })).value
    fc.assert(
      fc.property(plain, (value) => {
        expect(decodeMessage(encodeMessage(value))).toEqual(value)
      }),
      { seed: 2026 },
    )
  })

  it('are read from within a larger buffer', () => {
    const whole = new Uint8Array([255, ...message('{"$bytes":1}', 5), 255])
    expect(decodeMessage(whole.subarray(1, -1))).toEqual(new Uint8Array([5]))
  })

  it('copy their bytes: what arrives does not change with the message', () => {
    const whole = message('{"$bytes":1}', 5)
    const bytes = decodeMessage(whole)
    whole.fill(0)
    expect(bytes).toEqual(new Uint8Array([5]))
  })

  it.each([
    ['nothing', new Uint8Array()],
    ['three bytes', new Uint8Array([0, 0, 0])],
    ['a text shorter than told', new Uint8Array([0, 0, 0, 9, 110])],
    ['a length of 4 GB', new Uint8Array([255, 255, 255, 255, 110])],
    ['no JSON', message('nul')],
    ['no text at all', new Uint8Array([0, 0, 0, 0])],
    ['no UTF-8', new Uint8Array([0, 0, 0, 3, 0x22, 0xff, 0x22])],
    ['fewer bytes than told', message('{"$bytes":3}', 1, 2)],
    ['more bytes than told', message('{"$bytes":1}', 1, 2)],
    ['bytes that nothing tells of', message('null', 1)],
    ['a length below zero', message('{"$bytes":-1}', 1)],
    ['half a byte', message('{"$bytes":0.5}', 1)],
    ['a length that is no number', message('{"$bytes":"1"}', 1)],
    ['a length beyond all numbers', message('{"$bytes":1e999}', 1)],
  ])('are refused: %s', (_what, bytes) => {
    expect(() => decodeMessage(bytes)).toThrow()
  })
})
