import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { chooseLogs, goTo, type Journey, shown, startJourney } from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { type DesktopProgram, desktopProgram } from '../helpers/desktopWindow'
import { pageTexts } from '../helpers/pageTexts'
import { runCli, sample } from '../helpers/runCli'

// What is saved or printed is of the visit as the window shows it, however fast the person is and however late the
// answers come: in the browser and in the desktop shell.

/** 110 mg/dL is 6.1 mmol/L. */
const LOG = {
  name: 'march.csv',
  text: `Date,Time,Glucose (mg/dL)\n${Array.from({ length: 20 }, (_, i) => `2026-03-${String(i + 1).padStart(2, '0')},07:00,110\n`).join('')}2026-03-05,12:00,62\n`,
}
const LATER = { name: 'april.csv', text: 'Date,Time,Glucose (mg/dL)\n2026-04-02,07:00,120\n' }
const NO_LOG = { name: 'photo.csv', text: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) }

/** Points, the paper's width as the PDF tells it. */
const WIDTH = { A4: '595', Letter: '612' }

/** The program's own way to the pages of a PDF, as it was built. */
const ASSETS = join(import.meta.dirname, '../../out/renderer/assets')
/** From the question to the leave; what is asked of a page takes some tens of milliseconds. */
const DELAYS_MS = [0, 0, 1, 2, 4, 6, 10, 15, 25, 40]

/** Of it what is asked here. */
interface Library {
  readonly openPdf: (bytes: Uint8Array) => Promise<{
    readonly count: number
    readonly points: (page: number) => Promise<number>
    readonly text: (page: number) => Promise<unknown>
    readonly draw: (page: number, canvas: HTMLCanvasElement, pixels: number) => Promise<void>
    readonly close: () => Promise<void>
  }>
}

interface PdfsThatGo {
  readonly library: Library
  readonly pdf: string
  readonly delaysMs: readonly number[]
}

/** Runs in the page: opens the PDF again and again, each while the one before it, closed, is still asked for its pages. */
async function pdfsThatGo({ library, pdf, delaysMs }: PdfsThatGo): Promise<readonly number[]> {
  const bytes = () => Uint8Array.from(atob(pdf), (letter) => letter.charCodeAt(0))
  const counts: number[] = []
  const gone: Promise<unknown>[] = []
  for (const delay of delaysMs) {
    const pages = await library.openPdf(bytes())
    counts.push(pages.count)
    await pages.points(1)
    const asked = [
      pages.text(1),
      pages.draw(1, document.createElement('canvas'), 800),
      pages.points(2).then(() => pages.text(2)),
    ]
    gone.push(Promise.allSettled(asked))
    if (delay > 0) await new Promise((resolve) => setTimeout(resolve, delay))
    gone.push(pages.close())
  }
  await Promise.all(gone)
  return counts
}

let journey: Journey
let page: Page
/** Behind the page, where it is the desktop's. */
let desktop: DesktopProgram | null = null
let program: DesktopProgram
/** Answers that are held back, by their channel. */
let held: Held[]

interface Held {
  readonly channel: string
  readonly letGo: Promise<void>
  readonly release: () => void
  readonly arrived: Promise<void>
  readonly arrive: () => void
}

/** Holds the next answer of a channel back until it is released; `arrived` once the program has given it. */
function hold(channel: string): Held {
  let release = () => undefined as void
  let arrive = () => undefined as void
  const letGo = new Promise<void>((resolve) => (release = resolve))
  const arrived = new Promise<void>((resolve) => (arrive = resolve))
  const one = { channel, letGo, release, arrived, arrive }
  held.push(one)
  return one
}

async function holdBack(channel: string): Promise<void> {
  const place = held.findIndex((one) => one.channel === channel)
  if (place < 0) return
  const [one] = held.splice(place, 1)
  one.arrive()
  await one.letGo
}

/** What was printed: in the desktop shell what its viewer was given, in a browser what its frame held. */
async function printedBy(does: () => Promise<unknown>): Promise<string> {
  const printed = () => (desktop ? Promise.resolve(desktop.opened.length) : page.evaluate('printed.length'))
  const before = Number(await printed())
  await does()
  await expect.poll(printed).toBe(before + 1)
  const pdf = desktop
    ? desktop.opened[before]
    : Uint8Array.from(
        await page.evaluate<number[]>(`printed[${before}].arrayBuffer().then((b) => [...new Uint8Array(b)])`),
      )
  return (await pageTexts(pdf)).join(' ')
}

/** Keeps what a frame is told to print: a browser without a screen has no print dialog. */
const PRINT_DOUBLE = `
  window.printed = []
  const made = new Map()
  const create = URL.createObjectURL
  URL.createObjectURL = (blob) => {
    const address = create(blob)
    made.set(address, blob)
    return address
  }
  Object.defineProperty(HTMLIFrameElement.prototype, 'contentWindow', {
    get() {
      return { print: () => window.printed.push(made.get(this.src)) }
    },
  })
`

interface Carrier {
  readonly open: () => Promise<Page>
  /** The same page as it was when it was opened. */
  readonly again: () => Promise<Page>
  readonly desktop: () => DesktopProgram | null
}

const CARRIERS: Readonly<Record<string, Carrier>> = {
  'in the browser': {
    open: async () => heldBack(await journey.newPage()),
    again: async () => {
      await page.unrouteAll({ behavior: 'ignoreErrors' })
      return heldBack(await journey.freshPage(page))
    },
    desktop: () => null,
  },
  'in the desktop shell': {
    open: () => program.newWindow(journey.context, holdBack),
    again: async () => {
      await program.freshWindow(page)
      return page
    },
    desktop: () => program,
  },
}

/** The page, with the answers to it held back. */
async function heldBack(of: Page): Promise<Page> {
  await of.route('**/bridge/*', async (route) => {
    const response = await route.fetch()
    await holdBack(route.request().url().split('/').pop() ?? '')
    await route.fulfill({ response })
  })
  return of
}

describeJourney('the pages that leave the window', () => {
  beforeAll(async () => {
    journey = await startJourney({ viewer: true })
    await journey.context.addInitScript(PRINT_DOUBLE)
    program = desktopProgram()
  })
  afterAll(async () => {
    await program.end()
    await journey.end()
  })

  it('go without a word while they are still asked, whatever is asked, and stand in the way of none after them', async () => {
    page = await journey.newPage()
    const [name] = readdirSync(ASSETS).filter((one) => /^pdfPages-.*[.]js$/.test(one))
    const library = await page.evaluateHandle<Library, undefined>(`import('/assets/${name}')`, undefined)
    const folder = mkdtempSync(join(tmpdir(), 'journey-pages-'))
    runCli([sample('two-months.csv'), '--out', 'report.pdf'], { cwd: folder })
    const pdf = readFileSync(join(folder, 'report.pdf'), 'base64')
    rmSync(folder, { recursive: true })
    const counts = await page.evaluate(pdfsThatGo, { library, pdf, delaysMs: DELAYS_MS })
    expect(new Set(counts)).toEqual(new Set([counts[0]]))
    await page.close()
    expect(journey.takeTroubles()).toEqual([])
  })

  it('carry the readings where that is ticked, and are opened again as a log, from the bar too', async () => {
    page = await journey.newPage()
    await chooseLogs(page, LOG)
    await goTo(page, 'Pages')
    await page.getByLabel('Attach the readings').check()
    await expect.poll(textSeen).toContain('This PDF contains all readings')
    const [pdf, text] = await savedBy(() => save('bar').click())
    expect(text).toContain('This PDF contains all readings')
    await page.getByText(/^Made visit-report.*whoever gets the file gets them too/).waitFor()
    page = await journey.freshPage(page)
    await chooseLogs(page, { name: 'march.pdf', text: Buffer.from(pdf, 'latin1') })
    await page.getByText(/^Only the readings attached to this PDF were read/).waitFor()
    await goTo(page, 'Pages')
    const [, again] = await savedBy(() => save('pages').click())
    // All figures stand on the first page, which tells the log apart by its hash alone.
    const figures = (of: string) => /Lows first.*?What stands out/.exec(of)?.[0]
    const said = /Read from a table that this program wrote: [^.]*\. /
    expect(again).toMatch(said)
    expect(figures(again.replace(said, ''))).toEqual(figures(text))
    expect(again).not.toContain('This PDF carries')
    await page.close()
    expect(journey.takeTroubles()).toEqual([])
  })

  describe.each(Object.entries(CARRIERS))('%s', (name, carrier) => {
    // What the window itself puts in order is the same in both: once is enough.
    const itOfWindow = it.runIf(name === 'in the browser')

    beforeAll(async () => {
      held = []
      page = await carrier.open()
      desktop = carrier.desktop()
    })
    afterAll(() => page.close())
    beforeEach(async () => {
      await chooseLogs(page, LOG)
      await goTo(page, 'Pages')
      await shown(page, 'canvas[data-drawn=true]')
    })
    afterEach(async () => {
      held = []
      page = await carrier.again()
      expect(journey.takeTroubles()).toEqual([])
    })

    it('are of the unit, the paper and the label chosen one right after the other, saved from bar and pages', async () => {
      const [, metric] = await savedBy(async () => {
        await page.getByLabel('Unit').selectOption('mmol/L')
        await save('bar').click()
      })
      expect(metric).toContain('6.1')
      expect(metric).not.toContain('110')
      const [pdf, text] = await savedBy(async () => {
        await page.getByLabel('Paper').selectOption('Letter')
        await page.getByLabel('Unit').selectOption('mg/dL')
        // Its field is not left by hand.
        await page.getByLabel('At the head of each page').fill('Room 4711')
        await save('pages').click()
      })
      expect(pdf).toMatch(new RegExp(`/MediaBox \\[0 0 ${WIDTH.Letter}`))
      expect(text).toContain('110')
      expect(text).not.toContain('6.1')
      expect(text).toContain('Room 4711')
    })

    itOfWindow(
      'have the log that was added and the decision that was made just before, not what was undone',
      async () => {
        const [, text] = await savedBy(async () => {
          const adding = hold('addLogs')
          await page.locator('input[type=file]').setInputFiles(asFile(LATER))
          await adding.arrived
          await save('bar').click()
          await isRemade()
          adding.release()
        })
        expect(text).toContain('2 April 2026')
        const [, before] = await savedBy(async () => {
          await page.getByRole('button', { name: /^Undo/ }).click()
          await save('pages').click()
        })
        expect(before).not.toContain('2 April 2026')
        await goTo(page, 'Readings')
        await page.getByLabel('Show').selectOption('lows')
        await page.getByRole('heading', { name: /62 mg\/dL/ }).waitFor()
        await page.getByLabel('Why?').fill('spilled juice')
        const [, decided] = await savedBy(async () => {
          const deciding = hold('edit')
          await page.getByRole('button', { name: /^Leave out/ }).click()
          await deciding.arrived
          await goTo(page, 'Pages')
          await save('pages').click()
          deciding.release()
        })
        expect(decided).toContain('spilled juice')
      },
    )

    itOfWindow(
      'say that they are remade, show nothing of those before, and are never those of a late answer',
      async () => {
        const [editing, making] = [hold('edit'), hold('makePdf')]
        await page.getByLabel('Unit').selectOption('mmol/L')
        await editing.arrived
        await isRemade()
        // What was chosen is seen at once.
        await expect.poll(() => page.getByLabel('Unit').inputValue()).toBe('mmol/L')
        editing.release()
        await making.arrived
        await isRemade()
        // The answer to a later question comes before it.
        await page.getByLabel('Unit').selectOption('mg/dL')
        await expect.poll(() => textSeen()).toContain('110')
        making.release()
        // The late answer has come once one that was asked for after it has.
        await page.getByLabel('Paper').selectOption('Letter')
        await shown(page, '.sheet[data-current=true] canvas[data-drawn=true]')
        expect(await textSeen()).toContain('110')
        const [, text] = await savedBy(() => save('pages').click())
        expect(text).toContain('110')
      },
    )

    itOfWindow(
      'are made neither after something that was not done nor with too long a label, and once with a double click',
      async () => {
        const adding = hold('addLogs')
        await page.locator('input[type=file]').setInputFiles(asFile(NO_LOG))
        await adding.arrived
        const downloads: unknown[] = []
        const count = (download: unknown) => downloads.push(download)
        page.on('download', count)
        await save('bar').click()
        adding.release()
        await page.getByText('Not done: the step before it was not accepted.').waitFor()
        await page.getByRole('alert').getByText('photo.csv').waitFor()
        expect(downloads).toEqual([])
        // Seen, it stops nothing any more.
        const [, text] = await savedBy(() => save('bar').click())
        expect(text).toContain('110')

        const label = page.getByLabel('At the head of each page')
        await label.fill('x'.repeat(201))
        await save('pages').click()
        await page.getByText('Not accepted yet').waitFor()
        await expect.poll(() => label.evaluate((field) => field === document.activeElement)).toBe(true)
        await label.fill('Room 4711')
        const [, labelled] = await savedBy(() => save('pages').click())
        expect(labelled).toContain('Room 4711')

        // The pages that are seen have been asked for: what is held is those to be saved.
        await expect.poll(textSeen).toContain('Room 4711')
        const making = hold('makePdf')
        await savedBy(async () => {
          await save('pages').click()
          await making.arrived
          await save('pages').click()
          making.release()
        })
        await savedBy(() => save('pages').click())
        expect(downloads).toHaveLength(4)
        page.off('download', count)
      },
    )

    it('are printed with Print and by key from every screen, of all that was typed, chosen and added just before', async () => {
      await goTo(page, 'Picture')
      const added = await printedBy(async () => {
        const adding = hold('addLogs')
        await page.locator('input[type=file]').setInputFiles(asFile(LATER))
        await adding.arrived
        await page.keyboard.press('Control+p')
        adding.release()
      })
      expect(added).toContain('2 April 2026')
      await page.getByText(/at actual size, on A4/).waitFor()
      await goTo(page, 'Pages')
      const label = page.getByLabel('At the head of each page')
      const labelled = await printedBy(async () => {
        await label.fill('Room 4711')
        await page.getByRole('button', { name: 'Print', exact: true }).click()
      })
      expect(labelled).toContain('Room 4711')
      const byKey = await printedBy(async () => {
        await page.getByLabel('Paper').selectOption('Letter')
        await page.getByLabel('Unit').selectOption('mmol/L')
        await label.fill('Room 12')
        await page.keyboard.press('Control+p')
      })
      expect(byKey).toContain('6.1')
      expect(byKey).toContain('Room 12')
      await page.getByText(/at actual size, on Letter/).waitFor()
    })
  })
})

const save = (from: 'bar' | 'pages') =>
  (from === 'bar' ? page.locator('.bar') : page.locator('.sheet-bar')).getByRole('button', {
    name: 'Save PDF',
  })

function asFile({ name, text }: { readonly name: string; readonly text: string | Uint8Array }) {
  return { name, mimeType: 'text/csv', buffer: Buffer.from(text) }
}

/** The PDF that is saved by what is done: its letters, and the text of its pages. */
async function savedBy(does: () => Promise<unknown>): Promise<readonly [string, string]> {
  const download = page.waitForEvent('download')
  await does()
  const pdf = readFileSync(await (await download).path())
  return [pdf.toString('latin1'), (await pageTexts(new Uint8Array(pdf))).join(' ')]
}

async function isRemade(): Promise<void> {
  await page.locator('.sheet-bar [role=status]').getByText('Making the pages …').waitFor()
  await expect.poll(() => page.locator('.sheet canvas').isVisible()).toBe(false)
}

/** The text of the page that is seen, as it stands below it. */
async function textSeen(): Promise<string> {
  await shown(page, '.sheet[data-current=true] canvas[data-drawn=true]')
  return (await page.locator('.sheet details p').allTextContents()).join(' ')
}
