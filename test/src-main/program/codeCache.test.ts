import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { runBundle } from '../../../src-main/program/codeCache'

const ran = globalThis as { greeting?: string }

describe('a program of one file', () => {
  let folder: string
  let file: string
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'bundle-'))
    file = join(folder, 'program.cjs')
    delete ran.greeting
  })
  afterEach(() => rmSync(folder, { recursive: true }))

  it('runs without compiled code beside it, and again with it', () => {
    writeFileSync(file, "globalThis.greeting = require('node:path').basename(__filename)")
    const { writeCompiled, wasCompiled } = runBundle(file)
    expect([ran.greeting, wasCompiled]).toEqual(['program.cjs', false])
    writeCompiled()
    delete ran.greeting
    expect([runBundle(file).wasCompiled, ran.greeting]).toEqual([true, 'program.cjs'])
  })

  it('is what runs, though the compiled code is that of another program of the same length', () => {
    writeFileSync(file, "globalThis.greeting = 'before'")
    runBundle(file).writeCompiled()
    writeFileSync(file, "globalThis.greeting = 'after!'")
    expect([runBundle(file).wasCompiled, ran.greeting]).toEqual([false, 'after!'])
  })

  it.each([
    [
      'changed in one bit',
      (code: Buffer) => code.map((byte, i) => (i === code.length - 9 ? byte ^ 1 : byte)),
    ],
    ['cut short', (code: Buffer) => code.subarray(0, code.length / 2)],
    ['empty', () => Buffer.alloc(0)],
  ])('runs where the compiled code is %s', (_name, spoilt) => {
    writeFileSync(file, "globalThis.greeting = 'hello'")
    runBundle(file).writeCompiled()
    const compiled = `${file}.compiled`
    writeFileSync(compiled, spoilt(readFileSync(compiled)))
    delete ran.greeting
    expect([runBundle(file).wasCompiled, ran.greeting]).toEqual([false, 'hello'])
  })
})
