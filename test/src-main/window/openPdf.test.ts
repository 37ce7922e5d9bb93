import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { clearPrinting, pdfOpener } from '../../../src-main/window/openPdf'
import { removeTraces } from '../../../src-main/window/traces'

// A PDF that the desktop's viewer prints: whole, for its owner alone, and gone with the program.

const PDF = new Uint8Array([0x25, 0x50, 0x44, 0x46])
const openPath = vi.fn<(path: string) => Promise<string>>()
let folder = ''

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'printing-'))
  openPath.mockReset().mockResolvedValue('')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

it('is opened under its own name, readable by its owner alone', async () => {
  expect(await pdfOpener(openPath, folder)('report.pdf', PDF)).toBe(true)
  const [[path]] = openPath.mock.calls
  expect(path.endsWith('report.pdf')).toBe(true)
  expect(new Uint8Array(readFileSync(path))).toEqual(PDF)
  if (process.platform === 'win32') return
  expect(statSync(path).mode & 0o777).toBe(0o600)
  expect(statSync(dirname(path)).mode & 0o777).toBe(0o700)
})

it('leaves the one before as it is: a viewer may still hold it', async () => {
  const open = pdfOpener(openPath, folder)
  await open('report.pdf', PDF)
  await open('report.pdf', new Uint8Array([1]))
  const [[first], [second]] = openPath.mock.calls
  expect(new Uint8Array(readFileSync(first))).toEqual(PDF)
  expect(new Uint8Array(readFileSync(second))).toEqual(new Uint8Array([1]))
})

it('is told not to be opened where no viewer could', async () => {
  openPath.mockResolvedValue('no application is known for it')
  expect(await pdfOpener(openPath, folder)('report.pdf', PDF)).toBe(false)
})

it.each([
  ['with the program', (own: string) => Promise.resolve(clearPrinting(own))],
  ['with the traces', removeTraces],
])('goes %s', async (_, remove) => {
  await pdfOpener(openPath, folder)('report.pdf', PDF)
  await remove(folder)
  expect(existsSync(openPath.mock.calls[0][0])).toBe(false)
  expect(existsSync(join(folder, 'printing'))).toBe(false)
})
