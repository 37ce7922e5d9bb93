import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readAssets } from '../../../src-main/window/assets'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'assets-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

describe('the built files of the window', () => {
  it('are read once, by path and with their type', () => {
    mkdirSync(join(folder, 'assets'))
    writeFileSync(join(folder, 'index.html'), '<!doctype html>')
    writeFileSync(join(folder, 'assets', 'index.js'), 'let a')
    const assets = readAssets(folder)
    expect([...assets.keys()].sort()).toEqual(['/', '/assets/index.js', '/index.html'])
    expect(assets.get('/assets/index.js')?.type).toBe('text/javascript; charset=utf-8')
    expect(assets.get('/')).toBe(assets.get('/index.html'))
  })

  it('hold no link that leads out of their folder, and no file of a type that a window does not need', () => {
    const outside = mkdtempSync(join(tmpdir(), 'outside-'))
    writeFileSync(join(outside, 'secret.js'), 'secret')
    writeFileSync(join(folder, 'index.html'), '<!doctype html>')
    writeFileSync(join(folder, 'notes.csv'), 'Time,Glucose')
    symlinkSync(join(outside, 'secret.js'), join(folder, 'file.js'))
    symlinkSync(outside, join(folder, 'folder'))
    expect([...readAssets(folder).keys()].sort()).toEqual(['/', '/index.html'])
    rmSync(outside, { recursive: true })
  })

  it('are missed aloud where the window was not built', () => {
    expect(() => readAssets(folder)).toThrow('npm run build makes it')
  })
})
