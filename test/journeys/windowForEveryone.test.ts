import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import {
  axeViolations,
  type Chosen,
  chooseLogs,
  goTo,
  type Journey,
  shown,
  startJourney,
} from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { sample } from '../helpers/runCli'

// The window by key, by screen reader, in both themes and in narrow rooms.

const SEASON = sample('season-two-meters.csv')
const OPEN_UNIT = {
  name: 'no-unit.csv',
  text: 'Date,Time,Glucose\n2026-03-02,07:00,25\n2026-03-02,12:00,28\n2026-03-03,07:00,22\n',
}
const OPEN_COLUMNS = { name: 'no-header.csv', text: '2026-03-02,07:00,125,5\n2026-03-02,12:00,148,7\n' }
const NO_LOG = { name: 'photo.csv', text: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) }

interface Screen {
  readonly name: string
  readonly logs: readonly Chosen[]
  readonly step?: 'Visit' | 'Logs' | 'Readings' | 'Pages'
  /** Of the visit. */
  readonly part?: RegExp
}

const SCREENS: readonly Screen[] = [
  { name: 'the start', logs: [] },
  { name: 'the picture', logs: [SEASON] },
  { name: 'the readings', logs: [SEASON], step: 'Readings' },
  { name: 'the logs', logs: [SEASON], step: 'Logs' },
  { name: 'the pages', logs: [SEASON], step: 'Pages' },
  { name: 'the file of the visit', logs: [SEASON], step: 'Visit' },
  { name: 'label, targets, unit', logs: [SEASON], step: 'Visit', part: /^Label/ },
  { name: 'strips', logs: [SEASON], step: 'Visit', part: /^Strips/ },
  { name: 'meter clocks', logs: [SEASON], step: 'Visit', part: /^Meter clocks/ },
  { name: 'typed readings', logs: [SEASON], step: 'Visit', part: /^Typed/ },
  { name: 'questions and a refusal', logs: [OPEN_UNIT, OPEN_COLUMNS, NO_LOG] },
]

let journey: Journey
let page: Page

describeJourney('the window for everyone', () => {
  beforeAll(async () => {
    journey = await startJourney()
    page = await journey.newPage()
  })
  afterAll(() => journey.end())
  afterEach(async () => {
    page = await journey.freshPage(page)
    expect(journey.takeTroubles()).toEqual([])
  })

  it.each(SCREENS)('is for everyone by key and by what axe-core checks: $name', async (screen) => {
    await goToScreen(screen)
    await everyStopIsSeen()
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      expect(await axeViolations(page, colorScheme === 'dark'), colorScheme).toEqual([])
    }
    const summaries = await page.locator('summary').all()
    for (const summary of summaries) await summary.click()
    if (summaries.length > 0) expect(await axeViolations(page), 'with everything open').toEqual([])
  })

  it('is worked by key alone, from the choice of logs to the PDF', async () => {
    const picker = page.waitForEvent('filechooser')
    // A page that is not in front yet takes no keys.
    await page.bringToFront()
    await page.getByRole('button', { name: /logs/ }).first().waitFor()
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    await (
      await picker
    ).setFiles({
      name: OPEN_UNIT.name,
      mimeType: 'text/csv',
      buffer: Buffer.from(OPEN_UNIT.text),
    })
    await shown(page, '.logs-screen')
    await expect.poll(() => focused()).toBe('One question first')
    await tabTo(/^mg\/dL/)
    await page.keyboard.press('Enter')
    await shown(page, '.large-figures')
    await expect.poll(() => focused()).toBe('2 to 3 March 2026')
    await tabTo('Picture of the day in words')
    await page.keyboard.press('Enter')
    await expect.poll(() => page.locator('.picture details p').first().isVisible()).toBe(true)
    await tabTo('Save PDF')
    const download = page.waitForEvent('download')
    await page.keyboard.press('Enter')
    await (await download).path()
    await page.getByText('Made visit-report-2026-03-02-to-2026-03-03.pdf.').waitFor()
    // The work done, the focus is where it was.
    await expect.poll(() => focused()).toBe('Save PDF')
    await page.keyboard.press('Control+z')
    await shown(page, '.logs-screen fieldset')
    await page.keyboard.press('Control+z')
    await shown(page, '.start')
    await expect.poll(() => focused()).toBe('Choose the logs of your meters')
    await page.keyboard.press('Control+Shift+z')
    await shown(page, '.logs-screen fieldset')
  })

  it('tells a screen reader what it does and did, without being asked', async () => {
    const status = page.getByRole('status')
    await expect.poll(() => status.innerText()).toBe('')
    await chooseLogs(page, SEASON)
    await expect.poll(() => status.innerText()).toBe('Read: 478 readings on 90 of 90 days.')
    const lows = page.getByRole('region', { name: /^Lows/ }).getByRole('listitem')
    const doubtfulLow = lows.filter({ hasText: '66? → 104 → 106' })
    await expect.poll(() => doubtfulLow.textContent()).toContain('(doubtful, still counted)')
    // Here the repeat in between is doubtful, not a low.
    const doubtfulRepeat = lows.filter({ hasText: '51 → 122? → 60' })
    await expect.poll(() => doubtfulRepeat.textContent()).not.toContain('doubtful')
  })

  // 320 px is the width at which pages must do without scrolling sideways (WCAG 2.2, 1.4.10 Reflow).
  it.each([
    [1180, 780, 16],
    [900, 600, 16],
    [900, 600, 32],
    [320, 640, 16],
  ])('fits %i by %i with letters of %i, the lows before the picture', async (width, height, letters) => {
    await resize(width, height, letters)
    const scrollWidth = () => page.evaluate(() => document.documentElement.scrollWidth)
    await chooseLogs(page, OPEN_UNIT, OPEN_COLUMNS, NO_LOG)
    await expect.poll(() => scrollWidth()).toBe(width)
    page = await journey.freshPage(page)
    await resize(width, height, letters)
    await chooseLogs(page, SEASON)
    for (const step of ['Visit', 'Logs', 'Readings', 'Pages', 'Picture'] as const) {
      await goTo(page, step)
      if (step === 'Readings') await shown(page, '.detail')
      if (step === 'Picture') await shown(page, '.large-figures')
      await expect.poll(() => scrollWidth(), { message: step }).toBe(width)
    }
    const lows = await page.locator('.lows').boundingBox()
    const picture = await page.locator('.picture').boundingBox()
    if (!lows || !picture) throw new Error('not shown')
    expect(lows.y + lows.height <= picture.y || lows.x + lows.width <= picture.x).toBe(true)
    expect(lows.y).toBeLessThanOrEqual(picture.y)
    // Narrower, the picture is moved sideways in its own frame.
    if (width / letters > 50) {
      const frame = page.locator('.picture-frame').first()
      expect(await frame.evaluate((one) => one.scrollWidth - one.clientWidth)).toBe(0)
    }
    // Its letters stay what they were made.
    await page.close()
  })

  it('shows what has the focus where a bar would hide it', async () => {
    await chooseLogs(page, SEASON)
    await shown(page, '.figures')
    const stops = page.locator('main').locator('button, select, summary, input:not([type=file])')
    const hidden = await stops.evaluateAll((all) =>
      ['end', 'start'].flatMap((block) =>
        all.filter((stop) => {
          // At the very edge of the window, under the bar there.
          const { top, bottom } = stop.getBoundingClientRect()
          window.scrollBy(0, block === 'start' ? top : bottom - window.innerHeight)
          stop.focus()
          const { left, top: now, width, height } = stop.getBoundingClientRect()
          const there = document.elementFromPoint(left + width / 2, now + height / 2)
          stop.blur()
          return !stop.contains(there)
        }),
      ),
    )
    expect(hidden).toEqual([])
    await expect.poll(() => stops.count()).toBeGreaterThan(5)
  })

  it.each(['none', 'active'] as const)(
    'draws the square of a low, forced colours: %s',
    async (forcedColors) => {
      await page.emulateMedia({ forcedColors })
      await chooseLogs(page, SEASON)
      const square = page.locator('.low .square').first()
      const [mark, ground] = await Promise.all([
        square.screenshot().then(colourOf),
        square.evaluate(() => getComputedStyle(document.body).backgroundColor),
      ])
      expect(mark).toMatch(/^rgb\(\d+, \d+, \d+\)$/)
      expect(mark).not.toBe(ground)
    },
  )
})

/** Sizes the window, and the letters as a person sets them in the browser: 16 px is what it comes with. */
async function resize(width: number, height: number, letters: number): Promise<void> {
  await page.setViewportSize({ width, height })
  const devtools = await page.context().newCDPSession(page)
  await devtools.send('Page.enable')
  await devtools.send('Page.setFontSizes', { fontSizes: { standard: letters } })
}

async function goToScreen({ logs, step, part }: Screen): Promise<void> {
  if (logs.length > 0) await chooseLogs(page, ...logs)
  if (step) await goTo(page, step)
  if (part) await page.getByRole('button', { name: part }).click()
  if (step === 'Readings') await shown(page, '.detail')
}

interface Stop {
  readonly html: string
  /** Whether the focus is drawn around it. */
  readonly outlined: boolean
  /** Whether its middle can be seen: in the window, under neither bar. */
  readonly inView: boolean
}

/** Every element to be reached by key is reached, the focus drawn around it and in view. */
async function everyStopIsSeen(): Promise<void> {
  const wanted = await page
    .locator('button, select, summary, textarea, input:not([type=file]), [tabindex="0"]')
    .evaluateAll((all) =>
      all.filter((one) => one.checkVisibility()).map((one) => one.outerHTML.slice(0, 200)),
    )
  expect(wanted.length).toBeGreaterThan(0)
  const stops = await tabThrough(wanted.length)
  expect(stops.map(({ html }) => html).toSorted()).toEqual(wanted.toSorted())
  expect(stops.filter(({ outlined, inView }) => !outlined || !inView)).toEqual([])
}

/** Presses Tab until it is back at the first stop, or too often; tells where it stopped, each place once. */
async function tabThrough(expected: number): Promise<readonly Stop[]> {
  const stops = new Map<string, Stop>()
  let first: string | undefined
  let before: string | undefined
  // More for the parts of a date, and for the way past the end of the page.
  for (let i = 0; i <= 2 * expected; i++) {
    await page.keyboard.press('Tab')
    const stop = await page.evaluate(() => {
      const element = document.activeElement
      if (!element || element === document.body) return null
      const { outlineStyle, outlineWidth } = getComputedStyle(element)
      const { left, top, width, height } = element.getBoundingClientRect()
      const there = document.elementFromPoint(left + width / 2, top + height / 2)
      return {
        html: element.outerHTML.slice(0, 200),
        outlined: outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2,
        inView: there !== null && element.contains(there),
      }
    })
    if (!stop) continue
    if (stop.html === first && before !== first) break
    first ??= stop.html
    before = stop.html
    stops.set(stop.html, stop)
  }
  return [...stops.values()]
}

/** The colour in the middle of a screenshot. */
function colourOf(png: Buffer): Promise<string> {
  return page.evaluate(
    async (address) => {
      const image = new Image()
      image.src = address
      await image.decode()
      const canvas = document.createElement('canvas').getContext('2d')
      if (!canvas) throw new Error('no canvas')
      canvas.drawImage(image, 0, 0)
      const [red, green, blue] = canvas.getImageData(image.width / 2, image.height / 2, 1, 1).data
      return `rgb(${red}, ${green}, ${blue})`
    },
    `data:image/png;base64,${png.toString('base64')}`,
  )
}

/** Presses Tab until the element with this text has the focus. */
async function tabTo(name: string | RegExp): Promise<void> {
  const MOST_STOPS = 50
  for (let i = 0; i < MOST_STOPS; i++) {
    const now = await focused()
    if (typeof name === 'string' ? now === name : name.test(now)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`No way by Tab to '${String(name)}'`)
}

function focused(): Promise<string> {
  return page.evaluate(() => (document.activeElement?.textContent ?? '').trim())
}
