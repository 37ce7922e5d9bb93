import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { idleTimer } from '../../../src-main/browser/idleTimer'

beforeEach(() => vi.useFakeTimers())
afterEach(() => vi.useRealTimers())

const MINUTE = 60_000

describe('the idle timer', () => {
  it('ends after its minutes, once', () => {
    const end = vi.fn()
    idleTimer(15, end)
    vi.advanceTimersByTime(15 * MINUTE - 1)
    expect(end).not.toHaveBeenCalled()
    vi.advanceTimersByTime(60 * MINUTE)
    expect(end).toHaveBeenCalledOnce()
  })

  it('starts anew at every sign of use', () => {
    const end = vi.fn()
    const timer = idleTimer(15, end)
    for (let i = 0; i < 8; i++) {
      vi.advanceTimersByTime(10 * MINUTE)
      timer.restart()
    }
    expect(end).not.toHaveBeenCalled()
    vi.advanceTimersByTime(15 * MINUTE)
    expect(end).toHaveBeenCalledOnce()
  })

  it('does not end once it was stopped', () => {
    const end = vi.fn()
    idleTimer(15, end).stop()
    vi.advanceTimersByTime(60 * MINUTE)
    expect(end).not.toHaveBeenCalled()
  })
})
