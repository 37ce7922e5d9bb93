import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import {
  chooseLogs,
  drop,
  goTo,
  type Journey,
  shown,
  standsFirst,
  startJourney,
} from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { sample } from '../helpers/runCli'
import { metHalfWay } from '../helpers/waiting'

// What a hand does that slips, in the built window: it loses nothing and is told.

const TWO_MONTHS = sample('two-months.csv')

let folder: string
let journey: Journey
let page: Page

describeJourney('a slip of the hand', () => {
  beforeAll(async () => {
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(() => journey.end())
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'journey-slips-'))
    await chooseLogs(page, TWO_MONTHS)
  })
  afterEach(async () => {
    page = await journey.freshPage(page)
    rmSync(folder, { recursive: true })
    expect(journey.takeTroubles()).toEqual([])
  })

  it('removes one entry and one log, with a double click and with Enter twice', async () => {
    await part('Questions')
    for (const text of ['one', 'two', 'three', 'four']) await add('Question', text)
    const entries = page.locator('.entries li')
    await clickedTwice(/^Remove two/, 'Removed: two.')
    await expect.poll(() => entries.count()).toBe(3)
    await button(/^Remove one/).focus()
    await page.keyboard.press('Enter')
    await page.keyboard.press('Enter')
    await page.getByText('Removed: one.').waitFor()
    await page.keyboard.press('Enter')
    await expect.poll(() => entries.allInnerTexts()).toHaveLength(2)

    await page.locator('input[type=file]').setInputFiles(sample('season-two-meters.csv'))
    await page.locator('input[type=file]').setInputFiles(sample('europe-mmol.csv'))
    await goTo(page, 'Logs')
    const logs = page.locator('.log-row')
    await expect.poll(() => logs.count()).toBe(3)
    await clickedTwice(/^Remove two-months/, 'Removed two-months.csv.')
    await expect.poll(() => logs.count()).toBe(2)
    await button(/^Remove season/).focus()
    await page.keyboard.press('Enter')
    await page.keyboard.press('Enter')
    await page.getByText('Removed season-two-meters.csv.').waitFor()
    await page.keyboard.press('Enter')
    await expect.poll(() => logs.count()).toBe(1)
  })

  it('tells of a day that is half written, needed or not, and adds nothing', async () => {
    const told = page.getByText('Write a date that exists, such as 2026-03-02.')
    await part('Strips')
    await page.getByRole('textbox', { name: 'Lot' }).fill('7741')
    const expires = page.getByLabel('Expires')
    await expires.press('0')
    await expires.press('2')
    await button('Add').click()
    await told.waitFor()
    await expect.poll(() => page.locator('.entries li').count()).toBe(0)
    await expect.poll(() => expires.getAttribute('aria-invalid')).toBe('true')
    await expires.fill('2027-02-03')
    await button('Add').click()
    await page.getByText('Added to strips.').waitFor()
    await expect.poll(() => page.locator('.entries li').innerText()).toContain('expires 2027-02-03')

    await part('Laboratory A1C')
    const day = page.getByLabel('Day', { exact: true })
    await day.press('0')
    await day.press('2')
    await page.getByRole('textbox', { name: 'A1C' }).fill('6.8')
    await button('Add').click()
    await told.waitFor()
    await expect.poll(() => page.getByText('This is needed.').count()).toBe(0)
  })

  it('loses nothing that is half written, and takes a diary day by day', async () => {
    await part('Questions')
    const question = page.getByRole('textbox', { name: 'Question' })
    await question.fill('half a quest')
    await goTo(page, 'Readings')
    const why = page.getByRole('textbox', { name: 'Why?' })
    await why.fill('hands in dishwater')
    await button('Next doubtful reading').click()
    await expect.poll(() => why.inputValue()).toBe('')
    await page.locator('.grid-body .grid-row').first().click()
    await expect.poll(() => why.inputValue()).toBe('hands in dishwater')
    await page.getByLabel('Show').selectOption('lows')
    await part('Questions')
    await expect.poll(() => question.inputValue()).toBe('half a quest')
    await goTo(page, 'Readings')
    await expect.poll(() => page.getByLabel('Show').inputValue()).toBe('lows')

    await part('Typed readings')
    await page.getByLabel('Day', { exact: true }).fill('2026-05-20')
    await page.getByLabel('Time').fill('07:30')
    await page.getByLabel('Reading', { exact: true }).fill('LO')
    await button('Add').click()
    await page.getByText('Added to typed readings.').waitFor()
    await expect.poll(() => page.getByLabel('Day', { exact: true }).inputValue()).toBe('2026-05-20')
    const inHand = () => page.evaluate(() => document.activeElement?.getAttribute('name'))
    await expect.poll(inHand).toBe('time')
  })

  it('shows what went wrong where the page was scrolled down', async () => {
    await page.setViewportSize({ width: 700, height: 500 })
    await goTo(page, 'Picture')
    await shown(page, '.large-figures')
    const bottom = () => page.evaluate(() => window.scrollTo(0, document.body.scrollHeight))
    await bottom()
    await expect.poll(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(500)
    await drop(page, sample('two-months.csv'))
    await page.getByText('It is among the logs already.').waitFor()
    await expect
      .poll(async () => {
        const box = await page.locator('.fault').boundingBox()
        return box !== null && box.y >= 0 && box.y + box.height <= 500
      })
      .toBe(true)
  })

  it('a program that is killed while it computes is told, with no fault of the page', async () => {
    const large = (times: number) => {
      const rows = Array.from({ length: 400_000 * times }, (_, i) => {
        const at = new Date(Date.UTC(2020, 0, 1) + (i / times) * 300_000).toISOString()
        return `${at.slice(0, 10)},${at.slice(11, 16)},${90 + (i % 97)}`
      })
      return Buffer.from(`Date,Time,Glucose (mg/dL)\n${rows.join('\n')}\n`)
    }
    await metHalfWay(async (times) => {
      const over = page.getByText(/^Read: .*2020/)
      const told = page.getByRole('alert').getByText('The program behind this window has ended.')
      const file = { name: 'large.csv', mimeType: 'text/csv', buffer: large(times) }
      await page.locator('input[type=file]').setInputFiles(file)
      await standsFirst(page.locator('.progress'), over)
      await journey.endHost('SIGKILL')
      const wasMet = await standsFirst(told, over)
      if (wasMet) await expect.poll(() => page.locator('.progress').count()).toBe(0)
      else {
        await page.close()
        page = await journey.newPage()
        await chooseLogs(page, TWO_MONTHS)
      }
      return wasMet
    })
  })

  it('changes nothing behind a question: no undo by key, no dropped log', async () => {
    await part('Questions')
    await add('Question', 'why the mornings?')
    await part('File')
    await button('Begin an empty one').click()
    const dialog = page.getByRole('dialog', { name: 'This visit is not saved' })
    await dialog.waitFor()
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+y')
    await drop(page, sample('europe-mmol.csv'))
    await dialog.getByRole('button', { name: 'Cancel' }).click()
    await expect.poll(() => dialog.count()).toBe(0)
    await page.getByRole('button', { name: /^Questions/ }).click()
    await expect.poll(() => page.locator('.entries li').innerText()).toContain('why the mornings?')
    await goTo(page, 'Logs')
    await expect.poll(() => page.locator('.log-row').count()).toBe(1)
  })

  it('takes the logs that are dropped together with a folder, and tells of the folder', async () => {
    mkdirSync(join(folder, 'meters'))
    writeFileSync(join(folder, 'meters', 'inside.csv'), 'x')
    await drop(page, join(folder, 'meters'), sample('europe-mmol.csv'))
    await page.getByRole('alert').getByText('If it is a folder, choose the files inside it.').waitFor()
    await goTo(page, 'Logs')
    await expect.poll(() => page.locator('.log-row').count()).toBe(2)
  })
})

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true }).first()

async function part(name: string): Promise<void> {
  await goTo(page, 'Visit')
  await page
    .getByRole('navigation', { name: 'Parts of the visit' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click()
}

/** A double click whose second one comes when what the first removed is gone. */
async function clickedTwice(name: RegExp, said: string): Promise<void> {
  const box = await button(name).boundingBox()
  if (box === null) throw new Error('not to be seen')
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
  for (const clickCount of [1, 2]) {
    await page.mouse.down({ clickCount })
    await page.mouse.up({ clickCount })
    await page.getByText(said).waitFor()
  }
}

async function add(field: string, text: string): Promise<void> {
  await page.getByRole('textbox', { name: field }).fill(text)
  await button('Add').click()
  await page.locator('.entries li').filter({ hasText: text }).waitFor()
}
