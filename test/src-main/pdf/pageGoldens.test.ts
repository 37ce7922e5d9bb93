import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { runCli, sample } from '../../helpers/runCli'

/*
 * The pages of the samples as they were last looked at: each line of text with its place, and how dark the sheet is
 * from place to place when it is printed in grey. After a change that is meant, look at the pages, then:
 *   npx vitest run test/src-main/pdf/pageGoldens.test.ts --update
 */
const PAGES: readonly (readonly [name: string, args: readonly string[]])[] = [
  ['season-two-meters', [sample('season-two-meters.csv'), '--kit', sample('season-kit.json')]],
  ['technique-morning', [sample('technique-morning.csv')]],
  ['europe-mmol', [sample('europe-mmol.csv'), '--paper', 'Letter']],
  [
    'two-months',
    [sample('two-months.csv'), '--period', '2026-05-01..2026-05-31', '--versus', '2026-04-01..2026-04-30'],
  ],
]
const GOLDENS = join(import.meta.dirname, '../goldens')
const canRender = spawnSync('pdftoppm', ['-v']).status === 0

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-goldens-'))
  for (const [name, args] of PAGES) {
    const { status, stderr } = runCli([...args, '--out', `${name}.pdf`], { cwd: folder })
    if (status !== 0) throw new Error(stderr)
  }
}, 120_000)
afterAll(() => {
  rmSync(folder, { recursive: true })
})

describe.each(PAGES)('the pages of %s', (name) => {
  it('hold the lines of text that they held, in their places', async () => {
    await expect(await linesOf(join(folder, `${name}.pdf`))).toMatchFileSnapshot(join(GOLDENS, `${name}.txt`))
  })

  it.skipIf(!canRender)('are as dark as they were, from place to place, in grey', async () => {
    const made = greyOf(join(folder, `${name}.pdf`))
    const kept = join(GOLDENS, `${name}.grey.txt`)
    const isSame = existsSync(kept) && farApart(made, readFileSync(kept, 'utf8')) <= MOST_FAR_APART
    if (!isSame) await expect(made).toMatchFileSnapshot(kept)
  })
})

/** 'x y text' of each piece of text, points from the top left, in reading order. */
async function linesOf(path: string): Promise<string> {
  const pdf = await getDocumentProxy(new Uint8Array(readFileSync(path)))
  const lines: string[] = []
  for (let number = 1; number <= pdf.numPages; number++) {
    const page = await pdf.getPage(number)
    const { height } = page.getViewport({ scale: 1 })
    lines.push(`page ${number}`)
    const pieces: { x: number; y: number; text: string }[] = []
    for (const item of (await page.getTextContent()).items) {
      if (!('str' in item) || item.str.trim() === '') continue
      const [x, y] = [Math.round(Number(item.transform[4])), Math.round(height - Number(item.transform[5]))]
      const last = pieces.at(-1)
      if (last?.y === y && !item.hasEOL && /\s$/.test(last.text)) last.text += item.str
      else pieces.push({ x, y, text: item.str })
    }
    lines.push(...pieces.map(({ x, y, text }) => `${x} ${y} ${text.trim()}`))
  }
  // The program's own version and the day of making change without a change of the pages.
  return `${lines.join('\n').replace(/Visit report \d+\.\d+\.\d+/g, 'Visit report VERSION')}\n`
}

/** Nine points to a place: small enough for a mark to count, and coarse enough for another font renderer. */
const DOTS_PER_INCH = 8
/** Share of places that may differ by more than one step of sixteen. */
const MOST_FAR_APART = 0.002

/** Rows of hexadecimal digits, 0 black to f white. */
function greyOf(path: string): string {
  const prefix = path.replace(/\.pdf$/, '-grey')
  spawnSync('pdftoppm', ['-gray', '-r', String(DOTS_PER_INCH), path, prefix])
  const pages = readdirSync(folder)
    .filter((file) => join(folder, file).startsWith(`${prefix}-`))
    .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
  return pages.map((file) => rowsOf(readFileSync(join(folder, file)))).join('\n')
}

/** Of a portable grey map (binary, eight bits; Netpbm). */
function rowsOf(bytes: Buffer): string {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString('latin1', 0, 64))
  if (header === null) throw new Error('this is no grey map')
  const [width, height] = [Number(header[1]), Number(header[2])]
  const pixels = bytes.subarray(header[0].length)
  const row = (y: number) =>
    [...pixels.subarray(y * width, (y + 1) * width)].map((grey) => (grey >> 4).toString(16)).join('')
  return `${Array.from({ length: height }, (_, y) => row(y)).join('\n')}\n`
}

function farApart(one: string, other: string): number {
  if (one.length !== other.length) return 1
  let far = 0
  for (let i = 0; i < one.length; i++) {
    if (Math.abs(parseInt(one[i], 16) - parseInt(other[i], 16)) > 1) far++
  }
  return far / one.length
}
