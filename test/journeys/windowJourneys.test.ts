import {
  closeSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { once } from 'node:events'
import { createServer, type IncomingHttpHeaders } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import {
  axeViolations,
  chooseLogs,
  drop,
  goTo,
  type Journey,
  shown,
  standsFirst,
  startJourney,
} from '../helpers/browserJourney'
import { encodeMessage } from '../../src-core/bridge/wire'
import { describeJourney } from '../helpers/chromium'
import { sample } from '../helpers/runCli'
import { metHalfWay } from '../helpers/waiting'

// What people come for, from the first click to the last, and what happens to files that are none.

const SEASON = sample('season-two-meters.csv')
const MONTHS = sample('two-months.csv')

let folder = ''
let journey: Journey
let page: Page

/** A log in a file of the folder of this test. */
function file(name: string, content: string): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

const button = (name: string | RegExp) => page.getByRole('button', { name })

describeJourney('people and their logs', () => {
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'journeys-'))
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(async () => {
    await journey.end()
    rmSync(folder, { recursive: true })
  })
  afterEach(async () => {
    page = await journey.freshPage(page)
    expect(journey.takeTroubles()).toEqual([])
  })

  it('a newcomer: from the sample to the PDF in two clicks', async () => {
    await button('Try it with a sample').click()
    const download = page.waitForEvent('download')
    await button('Save PDF').click()
    const pdf = readFileSync(await (await download).path())
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
  })

  it('two meters, one with dates that can be read in two ways: asked in place, then read together', async () => {
    const one = file('kitchen.csv', 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:00,110\n2026-04-05,07:05,120\n')
    const other = file('bag.csv', 'Date,Time,Glucose (mg/dL)\n03/04/2026,12:00,140\n04/04/2026,12:10,150\n')
    await chooseLogs(page, one, other)
    const choices = page.locator('fieldset .choice')
    await expect
      .poll(() => choices.allInnerTexts())
      .toEqual([expect.stringMatching(/^day.*April/is), expect.stringMatching(/^month.*March/is)])
    await choices.first().click()
    await shown(page, '.large-figures')
    await expect.poll(() => page.locator('.opened-heading').innerText()).toContain('4 readings on 4 of')
    await expect.poll(() => page.locator('.guesses').textContent()).toContain('as answered')
  })

  it('a doubtful reading is left out with a reason, by key, and brought back by undo', async () => {
    await chooseLogs(page, SEASON)
    await goTo(page, 'Readings')
    await shown(page, '.detail')
    const grid = page.getByRole('grid')
    await grid.focus()
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('ArrowDown')
    await page.getByRole('heading', { name: /^208 mg\/dL/ }).waitFor()
    await page.getByLabel('Why?').fill('juice on my fingers')
    await button('Leave out of averages').click()
    // The next one comes at once, with the focus on its heading.
    const row = grid.getByRole('row').filter({ hasText: '208?' }).first()
    await row.getByText('left out').waitFor()
    await expect.poll(() => row.getAttribute('aria-selected')).toBe('false')
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('H2')
    await page.keyboard.press('Tab')
    await page.locator('h2').first().focus()
    await page.keyboard.press('Control+z')
    await page.getByText('Undone: leaving out 208.').waitFor()
    await row.getByText('left out').waitFor({ state: 'detached' })
    await page.keyboard.press('Control+y')
    await row.getByText('left out').waitFor()
  })

  it('another port of this computer gets nothing that opens the visit', async () => {
    await chooseLogs(page, MONTHS)
    const host = new URL(page.url()).origin
    const heard: IncomingHttpHeaders[] = []
    const other = createServer((request, response) => {
      heard.push(request.headers)
      response.setHeader('content-type', 'text/html').end('<title>other</title>')
    })
    other.listen(0, '127.0.0.1')
    await once(other, 'listening')
    const { port } = other.address() as AddressInfo
    try {
      // In the same tab and in another one, as a link would open them.
      const tab = await page.context().newPage()
      for (const at of [tab, page]) {
        await at.goto(`http://127.0.0.1:${port}/`)
        expect(await at.evaluate(() => [document.cookie, JSON.stringify(sessionStorage), JSON.stringify(localStorage)])).toEqual(['', '{}', '{}'])
      }
      expect(await page.context().cookies()).toEqual([])
      // What it got, sent to the program from where it likes.
      for (const headers of heard) {
        const sent = Object.entries(headers).flatMap(([name, value]): [string, string][] =>
          typeof value === 'string' && !['host', 'connection'].includes(name) ? [[name, value]] : [],
        )
        const { status } = await fetch(`${host}/bridge/show`, {
          method: 'POST',
          headers: { ...Object.fromEntries<string>(sent), origin: host, 'content-type': 'application/octet-stream' },
          body: encodeMessage(null),
        })
        expect(status).toBe(403)
      }
      await tab.close()
    } finally {
      other.close()
      other.closeAllConnections()
    }
    await page.goBack()
    await shown(page, '.large-figures')
  }) // prettier-ignore

  it('the page is loaded again as it was; a used address opens nothing, the terminal has another', async () => {
    await page.close()
    await journey.endHost()
    page = await journey.newPage()
    await chooseLogs(page, MONTHS)
    await page.reload()
    await shown(page, '.large-figures')
    const [printed] = journey.addresses()
    expect(new URL(page.url()).href).toBe(`${new URL(printed).origin}/`)
    // Where the key is, the address may be opened again.
    await page.goto(printed)
    await shown(page, '.large-figures')
    const tab = await page.context().newPage()
    await tab.goto(printed)
    await tab.getByText('the terminal shows a new one now').waitFor()
    await expect.poll(() => journey.addresses().length).toBe(2)
    await tab.goto(journey.addresses()[1])
    await shown(tab, '.large-figures')
    await tab.close()
    await journey.endHost()
  })

  it('two months side by side', async () => {
    await chooseLogs(page, MONTHS)
    await button('Compare with another period').click()
    const compared = await shown(page, '.compared')
    await expect.poll(() => compared.getByRole('img').count()).toBe(1)
    await expect.poll(() => compared.getByRole('table').count()).toBeGreaterThan(0)
  })

  it('a clinician drops an export that does not say its unit: asked, opened', async () => {
    await drop(
      page,
      file(
        'export.csv',
        'Date;Time;Glucose\n2026-03-02;07:00;25\n2026-03-02;12:00;28\n2026-03-03;07:00;22\n',
      ),
    )
    await button(/^mg\/dL/).click()
    await shown(page, '.large-figures')
    await expect.poll(() => page.locator('.lows').innerText()).toContain('3 readings below 70')
  })

  it('many rows: the window goes on, tells how far it is, is stopped, and shows them at last', async () => {
    // More work is each row told more often: the readings stay as many.
    const many = (times: number) => {
      const rows = Array.from({ length: 250_000 }, (_, i) => {
        const at = new Date(Date.UTC(2001, 0, 1) + i * 12 * 60_000).toISOString()
        return `${at.slice(0, 10)},${at.slice(11, 16)},${60 + ((i * 7919) % 220)}\n`.repeat(times)
      })
      return file('many.csv', `Date,Time,Glucose (mg/dL)\n${rows.join('')}`)
    }
    const undone = async () => {
      await button(/^Undo/).first().click()
      await page.getByText(/^Undone: /).waitFor()
    }
    const input = page.locator('input[type=file]')
    // Stands until it is undone, whatever the figures are.
    const over = button(/^Undo.*adding many/).first()
    await chooseLogs(page, SEASON)
    await metHalfWay(async (times) => {
      await input.setInputFiles(many(times))
      await standsFirst(page.getByText(/^Reading: \d/), over)
      await page.evaluate(() => document.querySelector<HTMLElement>('.progress button')?.click())
      const wasMet = await standsFirst(page.getByText('Cancelled. The visit is as it was before.'), over)
      if (!wasMet) await undone()
      return wasMet
    })
    await expect.poll(() => page.locator('.opened-heading').innerText()).toContain('478 readings')
    await goTo(page, 'Logs')
    await button(/^Remove season/).click()
    await metHalfWay(async (times) => {
      await input.setInputFiles(many(times))
      // What was read once is not read again: there it may be computed at once.
      await standsFirst(button('Cancel'), over)
      // A page that is loaded again half-way finds the work that goes on.
      await page.reload()
      const wasMet = await standsFirst(button('Cancel'), page.locator('.large-figures'))
      await shown(page, '.large-figures')
      if (!wasMet) await undone()
      return wasMet
    })
    await goTo(page, 'Readings')
    await shown(page, '.detail')
    await page.getByRole('grid').focus()
    await page.keyboard.press('End')
    await page.getByRole('row', { selected: true }).getByText(/2006/).waitFor()
  })

  it('told of a folder, a file of 2 GB and a PDF that are dropped, and nothing opens', async () => {
    mkdirSync(join(folder, 'meters'))
    const dropped = [
      [join(folder, 'meters'), /meters: It could not be opened\. If it is a folder/],
      [sparse('huge.csv', 2 * 1024 ** 3), /takes up to 100 MB of logs at a time; npm run report takes more/],
      [file('old.pdf', '%PDF-1.7\n%\u00e2\u00e3\n1 0 obj <<>> endobj\n'), /old\.pdf: The file is a PDF/],
    ] as const
    for (const [path, told] of dropped) {
      await drop(page, path)
      await page.getByRole('alert').filter({ hasText: told }).waitFor()
      await expect.poll(() => page.locator('.start').count(), { message: path }).toBe(1)
    }
    expect(await axeViolations(page)).toEqual([])
  })

  it('twenty logs that are dropped at once are read together', async () => {
    const paths = Array.from({ length: 20 }, (_, i) =>
      file(
        `log-${i}.csv`,
        `Date,Time,Glucose (mg/dL)\n2026-03-${String(i + 1).padStart(2, '0')},07:00,${100 + i}\n`,
      ),
    )
    await drop(page, ...paths)
    await shown(page, '.large-figures')
    await expect
      .poll(() => page.locator('.opened-heading').innerText())
      .toContain('20 readings on 20 of 20 days')
  })

  it('shows the very pages, and leafs through them', async () => {
    await chooseLogs(page, SEASON)
    await goTo(page, 'Pages')
    await shown(page, 'canvas[data-page="1"]')
    await button('Next').click()
    await shown(page, 'canvas[data-page="2"]')
    await page.getByText('Text of page 2').click()
    await expect.poll(() => page.locator('.pages details p').allInnerTexts()).not.toEqual([])
  })
})

function sparse(name: string, bytes: number): string {
  const path = join(folder, name)
  closeSync(openSync(path, 'w'))
  truncateSync(path, bytes)
  return path
}
