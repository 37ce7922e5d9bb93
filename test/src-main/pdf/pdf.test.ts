import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy, getMeta } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { documentOf, EDGE_NAMES, edgeLog, pdfOf } from '../../helpers/pages'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

const usual = analysisOf(inventedLog({ days: 90 }))
const has = (command: string) => spawnSync(command, ['--version']).status !== null

let folder: string
/** Its pages, made once. */
let usualPdf: Uint8Array
beforeAll(async () => {
  usualPdf = await pdfOf(usual)
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

  it('is the same to the byte for the same document and date', async () => {
    expect(Buffer.from(await pdfOf(usual)).equals(Buffer.from(usualPdf))).toBe(true)
  })

  it('leaves the document as it was', async () => {
    const before = documentOf(usual)
    await pdfOf(usual)
    expect(documentOf(usual)).toEqual(before)
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
    expect(Buffer.from(usualPdf).toString('latin1')).not.toMatch(/pdfuaid|pdfaid/)
    expect(await (await getDocumentProxy(new Uint8Array(usualPdf))).getMarkInfo()).toMatchObject({
      Marked: true,
    })
  })

  it('embeds its type and stays small', () => {
    expect(Buffer.from(usualPdf).toString('latin1')).toContain('/FontFile')
    expect(usualPdf.length).toBeLessThan(400_000)
  })

  it.skipIf(!has('pdffonts'))('uses no type but Source Sans 3, embedded and subset (pdffonts)', () => {
    const path = join(folder, 'fonts.pdf')
    writeFileSync(path, usualPdf)
    const [, , ...rows] = execFileSync('pdffonts', [path], { encoding: 'utf8' }).trim().split('\n')
    expect(rows.length).toBeGreaterThan(0)
    for (const row of rows) expect(row).toMatch(/^[A-Z]{6}\+SourceSans3-\S+ .* yes yes yes /)
  })

  it('reads no file but the program’s own fonts and fetches nothing', async () => {
    const document = documentOf(usual)
    const withImage = { ...document, content: [...document.content, { image: '/etc/hostname', width: 10 }] }
    const { renderPdf } = await import('../../../src-main/pdf/pdf')
    await expect(
      renderPdf(ENGLISH, withImage as unknown as typeof document, { madeAtMs: 0 }),
    ).rejects.toThrow()
  })
})
