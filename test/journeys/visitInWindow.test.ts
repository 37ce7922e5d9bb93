import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { axeViolations, chooseLogs, goTo, type Journey, shown, startJourney } from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { runCli, sample } from '../helpers/runCli'

// A visit over several sittings in the built window: saved, protected, recovered, told of, typed.

const TWO_MONTHS = sample('two-months.csv')
/** Where nothing depends on what was measured. */
const WEEK = {
  name: 'week.csv',
  text: `Date,Time,Glucose (mg/dL)\n${Array.from({ length: 7 }, (_, i) => `2026-05-0${i + 1},07:00,${110 + i}\n`).join('')}`,
}
const SECRET = 'four plain words here'

let folder: string
let journey: Journey
let page: Page

/** The start of a program whose visit is empty. */
async function begin(): Promise<void> {
  page = await journey.freshPage(page)
}

describeJourney('a visit in the window', () => {
  beforeAll(async () => {
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(() => journey.end())
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'journey-visit-'))
  })
  afterEach(async () => {
    await begin()
    rmSync(folder, { recursive: true })
    expect(journey.takeTroubles()).toEqual([])
  })

  it('is saved as a download, opened again, and saved in place where it has one', async () => {
    await chooseLogs(page, WEEK)
    await part('Questions')
    await page.getByRole('textbox', { name: 'Question' }).fill('why the mornings?')
    await button('Add').click()
    await page.getByText('Added to questions.').waitFor()
    await expect.poll(() => page.getByRole('button', { name: /^Visit edited/ }).count()).toBe(1)
    const path = await saved(() => page.keyboard.press('Control+s'))
    await page.getByText(/look for it among your downloads/).waitFor()
    await expect.poll(() => page.getByRole('button', { name: /^Visit edited/ }).count()).toBe(0)

    await begin()
    await page.locator('input[type=file]').setInputFiles(path)
    await shown(page, '.large-figures')
    await part('Questions')
    await expect
      .poll(() => page.locator('.entries li').allInnerTexts())
      .toEqual([expect.stringContaining('why the mornings?')])

    await page.close()
    page = await journey.newPage({ files: [path] })
    await shown(page, '.large-figures')
    await part('Changes')
    await page.getByRole('textbox', { name: 'Change' }).fill('a new meter')
    await page.keyboard.press('Control+Enter')
    await button('Add').click()
    await page.getByText('Added to changes.').waitFor()
    await button('Save').click()
    await page.getByText('Saved thursday.visit.').waitFor()
    expect(readFileSync(path, 'utf8')).toContain('a new meter')
    await expect.poll(() => page.title()).toBe('thursday.visit – Visit report')
  })

  it('is protected, and opens with its passphrase alone, which may be pasted', async () => {
    await chooseLogs(page, WEEK)
    await part('File')
    await button('Protect with a passphrase …').click()
    await expect.poll(() => focusedLabel()).toBe('Passphrase')
    await page.keyboard.type(SECRET)
    await page.getByLabel('Type it again').fill('another')
    await page.keyboard.press('Enter')
    await page.getByRole('alert').getByText('The two differ.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.getByLabel('Type it again').fill(SECRET)
    await page.keyboard.press('Enter')
    await page.getByText('The passphrase takes effect at the next save.').waitFor()
    const path = await saved(() => button('Save as a download').click())
    expect(readFileSync(path, 'utf8')).not.toContain('week.csv')

    await page.close()
    page = await journey.newPage({ files: [path] })
    const dialog = page.getByRole('dialog', { name: 'thursday.visit is protected' })
    await dialog.waitFor()
    expect(await axeViolations(page)).toEqual([])
    await expect.poll(() => focusedLabel()).toBe('Passphrase')
    for (const wrong of ['wrong', 'wrong again']) {
      await page.keyboard.type(wrong)
      await page.keyboard.press('Enter')
      await expect.poll(() => dialog.getByLabel('Passphrase').inputValue()).toBe('')
      await dialog.getByText(/not the passphrase/).waitFor()
      await expect.poll(() => focusedLabel()).toBe('Passphrase')
    }
    // Shown for a moment, so that it can be cut and pasted as a person does.
    await dialog.getByLabel('Show what is typed').check()
    await dialog.getByLabel('Passphrase').fill(SECRET)
    await page.keyboard.press('Control+a')
    await page.keyboard.press('Control+x')
    await page.keyboard.press('Control+v')
    await page.keyboard.press('Enter')
    await shown(page, '.large-figures')
    await part('File')
    await expect.poll(() => page.locator('.section').innerText()).toContain('protected')
  })

  it('cuts nothing that is pasted: a long passphrase counts whole, what is too long is told at its field', async () => {
    await chooseLogs(page, WEEK)
    const long = `${'pass phrase '.repeat(900)}end`
    await part('Questions')
    const question = page.getByRole('textbox', { name: 'Question' })
    await question.fill('w'.repeat(2_345))
    await page.getByText('Too long: 2,345 of 2,000 characters.').waitFor()
    await button('Add').click()
    await expect.poll(() => question.evaluate((field) => field === document.activeElement)).toBe(true)
    await expect.poll(() => page.locator('.entries li').count()).toBe(0)
    expect(await axeViolations(page)).toEqual([])
    await question.fill('why?')
    await button('Add').click()
    await page.getByText('Added to questions.').waitFor()

    await part('Label')
    const label = page.getByRole('textbox', { name: 'At the head of each page' })
    await label.fill('l'.repeat(201))
    await label.blur()
    await page.getByText('Too long: 201 of 200 characters.').waitFor()
    await label.fill('room 4')
    await label.blur()
    await page.getByText('Label changed.').waitFor()

    await part('File')
    await button('Protect with a passphrase …').click()
    await page.getByLabel('Passphrase').fill('x'.repeat(100_001))
    await page.getByText('Too long: 100,001 of 100,000 characters.').waitFor()
    await button('Protect').click()
    await page.getByLabel('Passphrase').fill(long)
    await page.getByLabel('Type it again').fill(long)
    await page.keyboard.press('Enter')
    await page.getByText('The passphrase takes effect at the next save.').waitFor()
    const path = await saved(() => button('Save as a download').click())
    const opened = runCli([path, '--no-pdf', '--passphrase-fd', '0'], { cwd: folder, input: long })
    expect(opened.status, opened.stderr).toBe(0)
  })

  it('takes what a person tells of the kit, names what is wrong at its field, and undoes it', async () => {
    await chooseLogs(page, TWO_MONTHS)
    await part('Control results')
    await button('Add').click()
    const result = page.getByRole('textbox', { name: 'Result' })
    await page.locator('.missing').first().waitFor()
    await expect.poll(() => focusedLabel()).toBe('Day')
    await expect.poll(() => result.getAttribute('aria-invalid')).toBe('true')
    const described = (await result.getAttribute('aria-describedby')) ?? ''
    await expect.poll(() => page.locator(`[id="${described}"]`).innerText()).toBe('This is needed.')
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      expect(await axeViolations(page, colorScheme === 'dark'), colorScheme).toEqual([])
    }
    await page.getByLabel('Day', { exact: true }).fill('2026-05-02')
    await result.fill('118')
    await page.getByRole('textbox', { name: 'Range from' }).fill('96')
    await page.getByRole('textbox', { name: 'Range to' }).fill('144')
    await page.keyboard.press('Enter')
    await page.getByText('Added to control results.').waitFor()
    const entry = page.locator('.entries li')
    await expect
      .poll(() => entry.innerText())
      .toContain('2026-05-02 · 118 mg/dL, inside its range (96 to 144)')
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.getByText('Undone: a change to the kit.').waitFor()
    await expect.poll(() => entry.count()).toBe(0)
    await page.keyboard.press('Control+Shift+z')
    await entry.waitFor()
    await entry.getByRole('button', { name: /^Change/ }).click()
    await expect.poll(() => focusedLabel()).toBe('Day')
    await entry.getByRole('textbox', { name: 'Result' }).fill('150')
    await page.keyboard.press('Enter')
    await page.getByText('Changed.', { exact: true }).waitFor()
    await expect.poll(() => entry.innerText()).toContain('150 mg/dL, outside its range')
  })

  it('counts a typed low among the lows and marks it as typed everywhere', async () => {
    await page.getByRole('button', { name: 'Type readings' }).click()
    await page.getByLabel('Day', { exact: true }).fill('2026-05-20')
    await page.getByLabel('Time', { exact: true }).fill('22:51')
    await page.getByRole('textbox', { name: 'Reading' }).fill('58')
    await button('Add').click()
    await page.getByText('Added to typed readings.').waitFor()
    await chooseLogsInWindow(TWO_MONTHS)
    await goTo(page, 'Picture')
    const low = page.locator('.low').filter({ hasText: '58 (typed)' })
    await low.waitFor()
    await expect.poll(() => low.innerText()).toContain('20 May, 22:51')
    await goTo(page, 'Readings')
    await page.getByLabel('Show').selectOption('lows')
    await page.getByText('Search and filter').click()
    await page.getByLabel('Search').fill('typed')
    await page.locator('.grid-body .grid-row').filter({ hasText: 'typed' }).waitFor()
    await page.getByRole('heading', { name: /58 mg\/dL on 20 May/ }).waitFor()
    await expect.poll(() => page.locator('.detail').innerText()).toContain('typed by hand')
    await button('Change or remove it').click()
    await page.getByRole('button', { name: /^Remove/ }).click()
    await page.getByText(/^Removed: 2026-05-20/).waitFor()
    await goTo(page, 'Picture')
    await shown(page, '.large-figures')
    await expect.poll(() => low.count()).toBe(0)
  })

  it('corrects a low of a log by hand: the low stays among the lows', async () => {
    await chooseLogs(page, TWO_MONTHS)
    const lows = await page.locator('.lows').innerText()
    const [below] = /\d+ readings below 70/.exec(lows) ?? []
    expect(below).toBeDefined()
    await goTo(page, 'Readings')
    await page.getByLabel('Show').selectOption('lows')
    await page.getByRole('heading', { name: /^Low: / }).waitFor()
    await button('Type what it should be …').click()
    await page.getByRole('form', { name: 'What it should be' }).getByLabel('Reading').fill('142')
    await page.keyboard.press('Enter')
    await page.getByText('Added as typed.').waitFor()
    await page.getByText('Left out of averages; stays among the lows').waitFor()
    await goTo(page, 'Picture')
    await expect.poll(() => page.locator('.lows').innerText()).toContain(below)
  })

  it('is offered again after its program was killed, and after it ended by itself', async () => {
    const ownFolder = join(folder, 'own')
    const start = async (files: readonly string[] = []) => {
      await page.close()
      page = await journey.newPage({ ownFolder, files })
    }
    const offered = () => page.getByRole('region', { name: 'Never saved' })
    await start()
    await chooseLogs(page, WEEK)
    for (const how of ['SIGKILL', 'SIGTERM'] as const) {
      await part('Questions')
      await page.getByRole('textbox', { name: 'Question' }).fill(`asked before ${how}`)
      await button('Add').click()
      await page.getByText('Added to questions.').waitFor()
      // The answer comes before it is on the disk.
      await expect.poll(() => unsavedTexts(ownFolder)).toContain(`asked before ${how}`)
      await journey.endHost(how)
      await start()
      await offered().waitFor()
      await expect.poll(() => offered().innerText()).toMatch(/last kept \d{4}-\d{2}-\d{2} \d{2}:\d{2}/)
      await expect.poll(() => offered().innerText()).toContain('1 log: week.csv')
      expect(await axeViolations(page)).toEqual([])
      await offered()
        .getByRole('button', { name: /^Discard …/ })
        .click()
      await offered().getByText('Discard it for good?').waitFor()
      expect(await axeViolations(page)).toEqual([])
      await expect.poll(() => focusedText()).toBe('Keep it')
      await page.keyboard.press('Enter')
      await offered()
        .getByRole('button', { name: /^Recover/ })
        .click()
      await page.getByText('Recovered. It is not saved yet.').waitFor()
      await part('Questions')
      await expect.poll(() => page.locator('.entries').innerText()).toContain(`asked before ${how}`)
    }
    const path = await saved(() => button('Save').click())
    await part('File')
    await button('Begin an empty one').click()
    await shown(page, '.section')
    await journey.endHost()
    // The browser may not have saved it.
    await start()
    await page.getByText(/given to the browser to save, .*: discard it if you have the file/).waitFor()
    // The file is seen: nothing is left.
    await start([path])
    await shown(page, '.large-figures')
    await journey.endHost()
    await start()
    await button('Try it with a sample').waitFor()
    await expect.poll(() => offered().count()).toBe(0)
  })

  it('says at once where what is not saved cannot be kept either, and no longer once it can', async () => {
    const ownFolder = join(folder, 'own')
    writeFileSync(ownFolder, 'no folder')
    await page.close()
    page = await journey.newPage({ ownFolder })
    await chooseLogs(page, WEEK)
    const told = page.getByText('Unsaved changes cannot be kept on the disk either')
    await told.waitFor()
    expect(await axeViolations(page)).toEqual([])
    rmSync(ownFolder)
    await tell(page, 'a new meter')
    await expect.poll(() => told.count()).toBe(0)
  })

  it('warns of a second program, and asks before either saves over the other', async () => {
    await chooseLogs(page, WEEK)
    const path = await saved(() => page.keyboard.press('Control+s'))
    await page.close()
    const first = await journey.newPage({ files: [path] })
    await shown(first, '.large-figures')
    page = await journey.newPage({ files: [path], beside: true })
    await page.getByRole('dialog', { name: 'thursday.visit is open elsewhere' }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.keyboard.press('Escape')
    await shown(page, '.start')
    const again = await journey.newPage({ files: [path], beside: true })
    await page.close()
    page = again
    await button('Open it here too').click()
    await page.getByText('Another window or program has this visit open too.').waitFor()
    await tell(page, 'from the second')
    await button('Save').click()
    await page.getByText('Saved thursday.visit.').waitFor()
    await tell(first, 'from the first')
    await first.getByRole('button', { name: 'Save', exact: true }).first().click()
    await first.getByRole('dialog', { name: 'thursday.visit was changed by another program' }).waitFor()
    await first.getByRole('button', { name: 'Cancel' }).click()
    expect(readFileSync(path, 'utf8')).toContain('from the second')
    await first.getByRole('button', { name: 'Save', exact: true }).first().click()
    await first.getByRole('button', { name: 'Replace it' }).click()
    await first.getByText('Saved thursday.visit.').waitFor()
    expect(readFileSync(path, 'utf8')).toContain('from the first')
    expect(readFileSync(`${path}.previous`, 'utf8')).toContain('from the second')
    await first.close()
  })

  it('is among the recent visits until the traces are removed', async () => {
    const ownFolder = join(folder, 'own')
    await chooseLogs(page, WEEK)
    const path = await saved(() => page.keyboard.press('Control+s'))
    await page.close()
    page = await journey.newPage({ ownFolder, files: [path] })
    await shown(page, '.large-figures')
    await page.close()
    page = await journey.newPage({ ownFolder })
    await button('thursday.visit').click()
    await shown(page, '.large-figures')
    await part('File')
    await button('Remove traces …').click()
    await button('Remove').click()
    await page.getByText(/the list of recent visits \(1\)/).waitFor()
    expect(existsSync(path)).toBe(true)
    expect(existsSync(join(ownFolder, 'visit-report', 'recent.json'))).toBe(false)
  })
})

const button = (name: string) => page.getByRole('button', { name, exact: true }).first()

async function part(name: string): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Steps' })
    .getByRole('button', { name: /^Visit/ })
    .click()
  await page
    .getByRole('navigation', { name: 'Parts of the visit' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click()
}

async function tell(window: Page, change: string): Promise<void> {
  await window
    .getByRole('navigation', { name: 'Steps' })
    .getByRole('button', { name: /^Visit/ })
    .click()
  await window.getByRole('button', { name: /^Changes/ }).click()
  await window.getByRole('textbox', { name: 'Change' }).fill(change)
  await window.getByRole('button', { name: 'Add', exact: true }).click()
  await window.getByText('Added to changes.').waitFor()
}

/** The file that the window hands to the browser, put where a person would. */
async function saved(save: () => Promise<void>): Promise<string> {
  const download = page.waitForEvent('download')
  await save()
  const path = join(folder, 'thursday.visit')
  writeFileSync(path, readFileSync(await (await download).path()))
  return path
}

async function chooseLogsInWindow(path: string): Promise<void> {
  await page.locator('input[type=file]').setInputFiles(path)
  await page.getByText(/^Read: /).waitFor()
}

function focusedText(): Promise<string> {
  return page.evaluate(() => document.activeElement?.textContent ?? '')
}

function focusedLabel(): Promise<string> {
  return page.evaluate(() => {
    const field = document.activeElement
    return field instanceof HTMLInputElement ? (field.labels?.[0]?.textContent ?? '').trim() : ''
  })
}

/** What is wholly kept: a file still being written would be lost with its program. */
function unsavedTexts(ownFolder: string): string {
  const unsaved = join(ownFolder, 'visit-report', 'unsaved')
  if (!existsSync(unsaved)) return ''
  return readdirSync(unsaved)
    .filter((name) => name.startsWith('unsaved-'))
    .map((name) => readFileSync(join(unsaved, name), 'utf8'))
    .join('')
}
