import { spawnSync } from 'node:child_process'
import { expect, it } from 'vitest'
import { isLeftover } from '../../../src-main/files/writeFiles'

it('what another thread of the same program is writing is no leftover to a thread', () => {
  const name = `.visit-report-${process.pid}-01234567-89ab-4def-8123-456789abcdef.part`
  expect(isLeftover(name, false)).toBe(false)
  // Where no other thread writes, nobody does: the number was another program's before.
  expect(isLeftover(name, true)).toBe(true)
})

it('what another computer writes into a shared folder is no leftover to this one', () => {
  const pid = spawnSync(process.execPath, ['-e', '']).pid
  const name = (host: string) => `.visit-report-${host}${pid}-01234567-89ab-4def-8123-456789abcdef.part`
  expect([isLeftover(name('')), isLeftover(name('0123abcd-'))]).toEqual([true, false])
})
