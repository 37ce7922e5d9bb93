import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy, getMeta } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { documentOf, EDGE_NAMES, edgeLog, pdfOf } from '../../helpers/pages'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { renderPdf } from '../../../src-main/pdf/pdf'
import { ENGLISH } from '../../../src-core/wording/english'

const usual = analysisOf(inventedLog({ days: 90 }))
const MADE = { madeAtMs: 0 }
const has = (command: string) => spawnSync(command, ['--version']).status !== null

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-pdf-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

describe('the PDF', () => {
  it.skipIf(!has('qpdf'))('passes the check of an independent reader (qpdf)', async () => {
    for (const name of EDGE_NAMES) {
      const analysis = edgeLog(name)
      const path = join(folder, 'report.pdf')
      writeFileSync(path, await pdfOf(analysis))
      expect([name, execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })]).toEqual([
        name,
        expect.stringContaining('No syntax or stream encoding errors'),
      ])
    }
  })

  it('is the same to the byte for the same document and date, and leaves the document as it was', async () => {
    const document = documentOf(usual)
    const before = structuredClone(document)
    const [first, second] = [
      await renderPdf(ENGLISH, document, MADE),
      await renderPdf(ENGLISH, document, MADE),
    ]
    expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true)
    expect(document).toEqual(before)
  })

  it('is titled, says its language, has bookmarks, and names nobody', async () => {
    const pdf = await getDocumentProxy(new Uint8Array(await pdfOf(usual, { label: 'Somebody’s label' })))
    const { info } = await getMeta(pdf)
    expect(info).toMatchObject({ Title: 'Visit report, 2 March to 30 May 2026', Language: 'en-GB' })
    expect(JSON.stringify(info)).not.toContain('Somebody')
    const outline = (await pdf.getOutline()).map(({ title }: { title: string }) => title)
    expect(outline).toEqual(expect.arrayContaining(['Visit report', 'Lows first', 'How it was computed']))
  })

  it('says that it is tagged, and claims no conformance that no validator has seen', async () => {
    const pdf = await pdfOf(usual)
    expect(Buffer.from(pdf).toString('latin1')).not.toMatch(/pdfuaid|pdfaid/)
    expect(await (await getDocumentProxy(new Uint8Array(pdf))).getMarkInfo()).toMatchObject({ Marked: true })
  })

  it('embeds its type and stays small', async () => {
    const bytes = await pdfOf(usual)
    expect(Buffer.from(bytes).toString('latin1')).toContain('/FontFile')
    expect(bytes.length).toBeLessThan(400_000)
  })

  it.skipIf(!has('pdffonts'))('uses no type but Source Sans 3, embedded and subset (pdffonts)', async () => {
    const path = join(folder, 'fonts.pdf')
    writeFileSync(path, await pdfOf(usual))
    const [, , ...rows] = execFileSync('pdffonts', [path], { encoding: 'utf8' }).trim().split('\n')
    expect(rows.length).toBeGreaterThan(0)
    for (const row of rows) expect(row).toMatch(/^[A-Z]{6}\+SourceSans3-\S+ .* yes yes yes /)
  })

  it('reads no file but the program’s own fonts and fetches nothing', async () => {
    const document = documentOf(usual)
    const withImage = { ...document, content: [...document.content, { image: '/etc/hostname', width: 10 }] }
    await expect(renderPdf(ENGLISH, withImage as unknown as typeof document, MADE)).rejects.toThrow()
  })
})
