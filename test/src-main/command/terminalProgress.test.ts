import { describe, expect, it } from 'vitest'
import { ENGLISH } from '../../../src-core/wording/english'
import { folderProgress } from '../../../src-main/command/terminalProgress'

// What a terminal shows while a folder is worked at, by a clock that the test moves.

const MINUTE = 60_000

function shownOn(isTTY: boolean | undefined) {
  let now = 5_000_000
  let shown = ''
  const stream = { isTTY, write: (text: string) => (shown += text) }
  const { watch, end } = folderProgress(ENGLISH, stream, () => now)
  const line = () => shown.split('\r\x1b[K').at(-1)
  return {
    /** What stands on the line after `ms` and so much work. */
    after: (ms: number, done: number, made: number, toMake: number, without = 0, of = 40) => {
      now += ms
      watch({ done, of, without, made, toMake })
      return line()
    },
    end: () => (end(), line()),
    all: () => shown,
  }
}

describe('the progress of a folder', () => {
  it('tells the time left once five reports tell how long one takes', () => {
    const { after } = shownOn(true)
    expect(after(4 * 10_000, 4, 4, 36)).toBe('4 of 40 logs')
    expect(after(10_000, 5, 5, 35)).toBe('5 of 40 logs, about 6 minutes left')
    expect(after(7 * 10_000, 12, 12, 28)).toBe('12 of 40 logs, about 5 minutes left')
    expect(after(24 * 10_000, 36, 36, 4)).toBe('36 of 40 logs, less than a minute left')
  })

  it('counts neither the time nor the number of what is kept as it was', () => {
    const { after } = shownOn(true)
    expect(after(100, 30, 0, 10)).toBe('30 of 40 logs')
    expect(after(5 * MINUTE - 100, 35, 5, 5)).toBe('35 of 40 logs, about 5 minutes left')
  })

  it('names what asks, says hours of a long run and one minute in the singular', () => {
    const { after } = shownOn(true)
    expect(after(5 * MINUTE, 6, 5, 594, 1, 600)).toBe(
      '6 of 600 logs, 1 asking or refused, about 10 hours left',
    )
    expect(after(0, 8, 5, 1, 3, 9)).toBe('8 of 9 logs, 3 asking or refused, about 1 minute left')
  })

  it('says no time at the end, and leaves the line empty', () => {
    const { after, end } = shownOn(true)
    expect(after(MINUTE, 40, 40, 0)).toBe('40 of 40 logs')
    expect(end()).toBe('')
  })

  it.each([false, undefined])('writes nothing on a pipe (isTTY %s)', (isTTY) => {
    const { after, end, all } = shownOn(isTTY)
    after(MINUTE, 12, 12, 28)
    end()
    expect(all()).toBe('')
  })
})
