import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { axeViolations, chooseLogs, goTo, type Journey, shown, startJourney } from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'

// A person puts right how a log was read: what each choice would do is seen before it is made, and all can be undone.

/** Meant day first, each day once; the first rows fit both orders. */
const DAYS = ['03/04', '04/04', '05/04', '06/04', '07/04', '08/04', '09/04', '10/04']
const LOG = `Date,Time,Glucose (mg/dL),Pulse,Remark\n${DAYS.map((day, i) => `${day}/2026,0${i}:15,${61 + 9 * i},${70 + i},${i === 2 ? 'juice' : ''}`).join('\n')}\n`

let journey: Journey
let page: Page
let folder: string

describeJourney('how a log was read', () => {
  beforeAll(async () => {
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(() => journey.end())
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'journey-change-'))
    await chooseLogs(page, { name: 'bag.csv', text: LOG })
    // The log does not say the order: the person slips.
    await page.locator('fieldset .choice').filter({ hasText: 'month first' }).click()
    await shown(page, '.large-figures')
    await goTo(page, 'Logs')
  })
  afterEach(async () => {
    page = await journey.freshPage(page)
    rmSync(folder, { recursive: true })
    expect(journey.takeTroubles()).toEqual([])
  })

  it('is changed once it is seen what comes of it, undone, saved and opened again', async () => {
    await expect.poll(() => page.locator('h2').innerText()).toBe('4 March to 4 June 2026')
    await change('the dates')
    const dayFirst = page.getByRole('button', { name: /^day first/ })
    await expect.poll(() => dayFirst.innerText()).toContain('line 2: 3 April 2026, 00:15, 61 mg/dL')
    await expect
      .poll(() => dayFirst.innerText())
      .toContain('8 readings, 1 below 70 mg/dL, 3 to 10 April 2026')
    expect(await axeViolations(page)).toEqual([])
    await page.keyboard.press('Tab')
    await dayFirst.focus()
    await page.keyboard.press('Enter')
    await page.getByText('Read again: day first.').waitFor()
    await expect.poll(() => page.locator('h2').innerText()).toBe('3 to 10 April 2026')
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toBe('Change the dates of bag.csv')

    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => page.locator('h2').innerText()).toBe('4 March to 4 June 2026')
    await page.getByRole('button', { name: 'Redo' }).click()
    await expect.poll(() => page.locator('h2').innerText()).toBe('3 to 10 April 2026')

    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    const path = join(folder, 'bag.visit')
    await (await download).saveAs(path)
    expect(readFileSync(path, 'utf8')).toContain('"instead":{"dates":"dmy"}')
    await page.close()
    page = await journey.newPage({ files: [path] })
    await shown(page, '.large-figures')
    await goTo(page, 'Logs')
    await expect.poll(() => page.locator('h2').innerText()).toBe('3 to 10 April 2026')
    await page.getByRole('button', { name: /^Take back/ }).click()
    await expect.poll(() => page.locator('h2').innerText()).toBe('One question first')
  })

  it('has its columns, its unit and its clock put right, in words of no terminal', async () => {
    await change('the columns')
    await page.getByLabel('What is in the wrong column?').selectOption('glucose')
    await page.getByRole('button', { name: /^Pulse/ }).click()
    await page.getByText('Read again: Pulse (column 4).').waitFor()
    await page.getByText('glucose from column 4').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()

    await change('the unit')
    await page.getByText('In the other unit no value of this log could be a reading.').waitFor()

    await change('the clock')
    await page.getByLabel('from').fill('2026-03-04')
    await page.getByLabel('to', { exact: true }).fill('2026-04-04')
    await page.getByLabel('Hours').fill('-12')
    await page.getByText('Write whole hours and minutes, and choose later or earlier.').waitFor()
    await page.getByLabel('from').fill('2026-04-05')
    await page.getByText('The last day is before the first.').waitFor()
    expect(await page.getByRole('button', { name: 'Move these times' }).count()).toBe(0)
    await page.getByLabel('from').fill('2026-03-04')
    await page.getByLabel('Hours').fill('12')
    await page.getByText('line 2: 4 March 2026, 00:15 becomes 12:15, 61 mg/dL').waitFor()
    await page.getByText('2 readings would move.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('button', { name: 'Move these times' }).click()
    await page.getByText('Times moved: 4 March to 4 April 2026, 12 hours later.').waitFor()
    expect(await page.locator('body').innerText()).not.toMatch(/--[a-z]/)
    await change('the clock')
    await page.getByRole('button', { name: /^Move back/ }).click()
    await page.getByText('Times: as the meter’s clock had them.').waitFor()
  })

  it('is changed among columns of one name, of hostile and of endless ones, each told apart and no wider than the window', async () => {
    const header = ['Date', 'Time', 'Glucose (mg/dL)', 'Count', 'Count', '"a\u0007b\u202ec"', 'x'.repeat(500)]
    const rows = DAYS.map((_, i) => `2026-03-0${i + 1},07:1${i},${90 + i},${100 + i},${200 + i},${110 + i},${120 + i}`)
    await chooseLogs(page, { name: 'odd.csv', text: [header.join(','), ...rows].join('\n') })
    await page.getByRole('button', { name: 'Change the columns of odd.csv' }).click()
    await page.getByLabel('What is in the wrong column?').selectOption('glucose')
    await page.getByRole('button', { name: /^Count \(column 5\)/ }).waitFor()
    await page.getByRole('button', { name: /^Count \(column 4\)/ }).waitFor()
    await page.getByRole('button', { name: /^a\u2407b\ufffdc \(column 6\)/ }).waitFor()
    await page.getByRole('button', { name: /^x{40}… \(column 7\)/ }).waitFor()
    const tooWide = await page.evaluate(() =>
      [...document.querySelectorAll('.ways *')].filter((part) => part.getBoundingClientRect().right > innerWidth).map((part) => part.outerHTML),
    )
    expect(tooWide).toEqual([])
  }) // prettier-ignore

  it('is changed while another log is still being read: neither loses the other', async () => {
    const day = (i: number) => new Date(Date.UTC(2006, 0, 1) + i * 12 * 60_000).toISOString()
    const rows = Array.from({ length: 200_000 }, (_, i) => `${day(i).slice(0, 10)},${day(i).slice(11, 16)},${80 + (i % 90)}\n`)
    const long = { name: 'long.csv', mimeType: 'text/csv', buffer: Buffer.from(`Date,Time,Glucose (mg/dL)\n${rows.join('')}`) }
    await page.locator('input[type=file]').setInputFiles(long)
    await change('the dates')
    await page.getByRole('button', { name: /^day first/ }).click()
    await page.getByText('Read again: day first.').waitFor()
    await page.getByText('8 rows: 8 readings, 0 set aside.').waitFor()
    await page.getByText('200000 rows: 200000 readings, 0 set aside.').waitFor()
  }) // prettier-ignore

  it('asks for the order of the dates with what would lie in the future', async () => {
    await page.getByRole('button', { name: /^Take back/ }).click()
    const choices = page.locator('fieldset .choice')
    await expect.poll(() => choices.allInnerTexts()).toEqual([
      'day first 3 April 2026 · 3 to 10 April 2026',
      'month first 4 March 2026 · 4 March to 4 October 2026; 4 rows in the future',
    ])
  }) // prettier-ignore
})

async function change(of: string) {
  await page.getByRole('button', { name: `Change ${of} of bag.csv` }).click()
  await page.locator('.ways fieldset').first().waitFor()
}
