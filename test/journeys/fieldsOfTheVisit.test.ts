import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { chooseLogs, goTo, type Journey, startJourney } from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { sample } from '../helpers/runCli'

// One rule for all fields: a choice counts at once, a text when its field is left; both can be undone. What looks applied is.

let journey: Journey
let page: Page

describeJourney('a field of the window', () => {
  beforeAll(async () => {
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(() => journey.end())
  beforeEach(async () => {
    await chooseLogs(page, sample('two-months.csv'))
  })
  afterEach(async () => {
    page = await journey.freshPage(page)
    expect(journey.takeTroubles()).toEqual([])
  })

  it('with a choice counts at once, though its screen is left, and undo takes it back', async () => {
    const figures = page.locator('.large-figures')
    await expect.poll(() => figures.innerText()).toContain('70 to 180')
    await part('Label, targets, unit')
    await page.getByLabel('Target range').selectOption('pregnancy')
    await goTo(page, 'Picture')
    await expect.poll(() => figures.innerText()).toContain('63 to 140')
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('Undone: a change to the targets.').waitFor()
    await expect.poll(() => figures.innerText()).toContain('70 to 180')
    await part('Label, targets, unit')
    await expect.poll(() => page.getByLabel('Target range').inputValue()).toBe('usual')
  })

  it('with numbers counts when it is left, in the unit printed, and what is wrong stays and is told', async () => {
    await part('Label, targets, unit')
    await page.getByLabel('Target range').selectOption('own')
    const high = page.getByRole('textbox', { name: 'To', exact: true })
    await expect.poll(() => high.inputValue()).toBe('180')
    await high.fill('150')
    await high.blur()
    await page.getByText('Targets and unit changed.').waitFor()
    await high.fill('9')
    await goTo(page, 'Picture')
    await expect.poll(() => page.locator('.large-figures').innerText()).toContain('70 to 150')
    await part('Label, targets, unit')
    await expect.poll(() => high.inputValue()).toBe('9')
    await expect.poll(() => high.getAttribute('aria-invalid')).toBe('true')
    await page.getByRole('button', { name: 'Back to what the visit has' }).click()
    await expect.poll(() => high.inputValue()).toBe('150')
    await page.getByLabel('Unit of the report').selectOption('mmol/L')
    await expect.poll(() => high.inputValue()).toBe('8.3')
    await goTo(page, 'Picture')
    await expect.poll(() => page.locator('.large-figures').innerText()).toContain('3.9 to 8.3')
  })

  it('that is filled while another of its form is on its way is taken in after it', async () => {
    await part('Label, targets, unit')
    let answer = () => undefined as void
    const held = new Promise<void>((resolve) => (answer = resolve))
    await page.route(
      '**/bridge/form',
      async (route) => {
        const response = await route.fetch()
        await held
        await route.fulfill({ response })
      },
      { times: 1 },
    )
    await page.getByLabel('Target range').selectOption('own')
    const high = page.getByRole('textbox', { name: 'To', exact: true })
    await high.fill('150')
    await high.blur()
    answer()
    await goTo(page, 'Picture')
    await expect.poll(() => page.locator('.large-figures').innerText()).toContain('70 to 150')
  })

  it('with days of the report counts when it is left', async () => {
    const to = page.getByRole('group', { name: 'Report' }).getByLabel('to')
    await to.fill('2026-04-30')
    await to.blur()
    await page.getByText('Shown.').waitFor()
    await expect.poll(() => page.locator('.opened-heading').innerText()).toContain('on 30 of 30 days')
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => page.locator('.opened-heading').innerText()).toContain('on 61 of 61 days')
  })
})

async function part(name: string) {
  await goTo(page, 'Visit')
  await page.getByRole('navigation', { name: 'Parts of the visit' }).getByRole('button', { name }).click()
}
