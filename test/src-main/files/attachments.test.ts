import { describe, expect, it } from 'vitest'
import { unpacked } from '../../../src-main/files/attachments'
import { renderPdf } from '../../../src-main/pdf/pdf'
import { isSealed } from '../../../src-main/files/pdfSeal'
import { EMPTY_VISIT } from '../../../src-core/visit/visit'
import { visitText } from '../../../src-core/visit/visitFile'
import type { PageDocument } from '../../../src-core/report/document'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { ENGLISH } from '../../../src-core/wording/english'

// What a report carries comes out as it went in, or is refused.

/** Of so many bytes one is changed; `npm run test:mutations` changes every one. */
const STEP = process.env.MODE === 'mutations' ? 1 : 13
const LONG = 3_600_000

/** Pages as small as they can be, so that most bytes are of what is attached. */
const PAGE: PageDocument = {
  title: 'A page',
  subject: '',
  creator: '',
  language: 'en-GB',
  paper: 'A4',
  margins: [37, 38, 37, 46],
  runningHead: { text: '' },
  foot: { left: ['', ''], right: '' },
  content: [{ text: 'a' }],
}
const bytesOf = (text: string) => new TextEncoder().encode(text)
const READINGS = {
  name: 'readings.csv',
  bytes: bytesOf(
    `at,mg_dl\n${Array.from({ length: 60 }, (_, i) => `2026-03-02T07:${i},${97 + i}\n`).join('')}`,
  ),
}
const VISIT = {
  name: 'report.visit',
  bytes: bytesOf(visitText({ ...EMPTY_VISIT, label: 'Thursday' }, BYTE_TOOLS)),
}
const OUT = {
  readings: [{ ...READINGS, name: 'readings.csv (march.pdf)' }],
  visit: [{ ...VISIT, name: 'march.visit' }],
}

const pdfWith = async (...files: (typeof READINGS)[]) =>
  Buffer.from(await renderPdf(ENGLISH, PAGE, { madeAtMs: Date.UTC(2026, 5, 30), files }))
const opened = (bytes: Uint8Array, name = 'march.pdf') => unpacked({ name, bytes: new Uint8Array(bytes) })
const itself = (bytes: Uint8Array) => ({ files: [{ name: 'march.pdf', bytes: new Uint8Array(bytes) }] })

/** The PDF with one text in place of another of the same length, wherever it stands. */
const changedText = (pdf: Buffer, text: string, other: string) =>
  Buffer.from(pdf.toString('latin1').replaceAll(text, other), 'latin1')

describe('a PDF', () => {
  it('gives the readings that it carries, or the visit where it carries one', async () => {
    expect(await opened(await pdfWith(READINGS))).toEqual({ files: OUT.readings })
    expect(await opened(await pdfWith(READINGS, VISIT))).toEqual({ files: OUT.visit })
  })

  it('that carries something is the same to the byte for the same files, and is known by its seal', async () => {
    const [one, other] = [await pdfWith(READINGS, VISIT), await pdfWith(READINGS, VISIT)]
    expect(one.equals(other)).toBe(true)
    expect(isSealed(one)).toBe(true)
    expect(isSealed(changedText(one, 'readings.csv', 'readingz.csv'))).toBe(false)
  })

  it('without attachments, or with foreign ones alone, is given back as it is, as any other file is', async () => {
    const foreign = changedText(
      await pdfWith(READINGS),
      'visit-report-attachments',
      'attachments of somebody ',
    )
    for (const bytes of [await pdfWith(), foreign, bytesOf('Date,Glucose\n')]) {
      expect(await opened(bytes)).toEqual(itself(bytes))
    }
  })

  it('with attachments of another version is refused as such', async () => {
    const other = changedText(
      await pdfWith(READINGS, VISIT),
      'visit-report-attachments 1',
      'visit-report-attachments 2',
    )
    expect(await opened(other)).toEqual({ fault: 'other-version' })
  })

  it('that is cut off anywhere is refused, however large it is', async () => {
    const pdf = await pdfWith(READINGS)
    for (let part = 1; part < 16; part++) {
      const cut = pdf.subarray(0, Math.floor((pdf.length * part) / 16))
      expect([part, await opened(cut)]).toEqual([part, { fault: 'unreadable' }])
    }
    const large = Buffer.alloc(200 * 1024 * 1024, 'A')
    pdf.copy(large)
    expect(await opened(large)).toEqual({ fault: 'unreadable' })
  })

  it(
    'of which any byte was changed gives what was attached whole, or is refused',
    { timeout: LONG },
    async () => {
      for (const [pdf, whole] of [
        [await pdfWith(READINGS), OUT.readings],
        [await pdfWith(READINGS, VISIT), OUT.visit],
      ] as const) {
        let refused = 0
        for (let at = 0; at < pdf.length; at += STEP) {
          const changed = Buffer.from(pdf)
          changed[at] ^= 1 << ((at / STEP) % 8)
          const found = await opened(changed)
          const isHarmless =
            'fault' in found || [itself(changed).files, whole].some((fine) => isEqual(found.files, fine))
          if (!isHarmless) expect([at, found]).toEqual([at, { files: whole }])
          if ('fault' in found) refused++
        }
        expect(refused).toBeGreaterThan(400 / STEP)
      }
    },
  )
})

type Files = readonly (typeof READINGS)[]
const isEqual = (some: Files, others: Files) =>
  some.length === others.length &&
  some.every(({ name, bytes }, i) => name === others[i].name && Buffer.compare(bytes, others[i].bytes) === 0)
