import { describe, expect, it, vi } from 'vitest'
import { CHANNELS } from '../../../src-core/bridge/channels'
import { faultTrace } from '../../../src-main/program/faultTrace'
import { answer, isPlain } from '../../../src-main/window/gate'
import { recordingHandlers } from '../../helpers/handlers'
import { MALFORMED_MESSAGES } from '../../helpers/malformedMessages'

const noFault = () => {
  throw new Error('no fault was expected')
}

describe('the gate', () => {
  it('answers a message that fits its channel', async () => {
    const handlers = recordingHandlers()
    expect(await answer('makePdf', { revision: 3 }, handlers, noFault)).toEqual({
      kind: 'answered',
      result: { kind: 'stale' },
    })
    expect(handlers.makePdf.mock.calls).toEqual([[{ revision: 3 }]])
  })

  it.each(CHANNELS)('refuses on %s every malformed message and calls nothing', async (channel) => {
    const handlers = recordingHandlers()
    for (const [why, argument] of MALFORMED_MESSAGES) {
      expect(await answer(channel, argument, handlers, noFault), why).toEqual({ kind: 'bad-argument' })
    }
    for (const handler of Object.values(handlers)) expect(handler).not.toHaveBeenCalled()
  })

  it.each(['', 'quit', '__proto__', 'constructor', 'toString', 'about ', 'ABOUT'])(
    'knows no channel %j',
    async (channel) => {
      expect(await answer(channel, null, recordingHandlers(), noFault)).toEqual({ kind: 'unknown-channel' })
    },
  )

  it('tells a fault by its kind alone and reports it to the program', async () => {
    const fault = new Error('glucose 48 in a note')
    const handlers = {
      ...recordingHandlers(),
      about: () => {
        throw fault
      },
    }
    const report = vi.fn()
    expect(await answer('about', null, handlers, report)).toEqual({ kind: 'fault' })
    expect(report).toHaveBeenCalledWith('about', fault)
  })

  it('lets no result pass that is more than data', async () => {
    const handlers = { ...recordingHandlers(), about: () => ({ name: 'x', version: '1', close: () => null }) }
    expect(await answer('about', null, handlers, () => undefined)).toEqual({ kind: 'fault' })
  })
})

describe('plain data', () => {
  it.each([null, true, 1, 'a', [], [1, [2]], {}, { a: { b: [null] } }, new Uint8Array(2)])(
    'is %j',
    (value) => {
      expect(isPlain(value)).toBe(true)
    },
  )

  it.each([
    undefined,
    () => 1,
    Symbol('a'),
    1n,
    new Date(0),
    new Map(),
    new Error('a'),
    Buffer.from('a'),
    new Float64Array(1),
    { a: undefined },
    [new Date(0)],
    Object.create({ a: 1 }),
  ])('is not value %#', (value) => {
    expect(isPlain(value)).toBe(false)
  })
})

describe('the trace of a fault', () => {
  it('names the fault and where it arose and leaves its message out', () => {
    const trace = faultTrace('openLogs', new RangeError('48 mg/dL\n    at lunch (7)')).join('\n')
    expect(trace).toMatch(/^Fault in openLogs: RangeError\n {4}at .*gate\.test\.ts/)
    expect(trace).not.toContain('48')
    expect(trace).not.toContain('lunch')
  })

  it('tells the type of whatever else was thrown', () => {
    expect(faultTrace('openLogs', '48 mg/dL')).toEqual(['Fault in openLogs: string'])
  })
})
