import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ENGLISH } from '../../../src-core/wording/english'
import { electronRuntime } from '../../../src-main/desktop/electronRuntime'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'electron-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

describe('Electron’s runtime', () => {
  it('is the program that path.txt names within dist', () => {
    mkdirSync(join(folder, 'dist'))
    writeFileSync(join(folder, 'dist', 'electron'), '')
    writeFileSync(join(folder, 'path.txt'), 'electron\n')
    expect(electronRuntime(folder)).toBe(join(folder, 'dist', 'electron'))
  })

  it('is missing without path.txt, without its program and without its package', () => {
    expect(electronRuntime(folder)).toBeNull()
    writeFileSync(join(folder, 'path.txt'), 'electron')
    expect(electronRuntime(folder)).toBeNull()
    expect(electronRuntime(join(folder, 'none'))).toBeNull()
    expect(electronRuntime(null)).toBeNull()
  })

  it('where missing, leaves the command that needs none', () => {
    const { NO_RUNTIME } = ENGLISH.desktop
    expect(NO_RUNTIME).toContain('\n  npm run browser\n')
    expect(NO_RUNTIME).toContain('Nothing has been downloaded')
  })
})
