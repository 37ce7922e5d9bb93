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
  readonly step?: 'Visit' | 'Logs' | 'Readings' | 'Pages'
  /** Of the visit. */
  readonly part?: RegExp
}

/** Looked at one after the other, once the logs were chosen. */
const SCREENS: readonly (readonly [what: string, logs: readonly Chosen[], screens: readonly Screen[]])[] = [
  ['before a log is chosen', [], [{ name: 'the start' }]],
  [
    'with a season of two meters',
    [SEASON],
    [
      { name: 'the picture' },
      { name: 'the readings', step: 'Readings' },
      { name: 'the logs', step: 'Logs' },
      { name: 'the pages', step: 'Pages' },
      { name: 'the file of the visit', step: 'Visit' },
      { name: 'label, targets, unit', step: 'Visit', part: /^Label/ },
      { name: 'strips', step: 'Visit', part: /^Strips/ },
      { name: 'meter clocks', step: 'Visit', part: /^Meter clocks/ },
      { name: 'typed readings', step: 'Visit', part: /^Typed/ },
    ],
  ],
  ['with questions and a refusal', [OPEN_UNIT, OPEN_COLUMNS, NO_LOG], [{ name: 'the logs' }]],
]

/** Width, height, and letters; at 320 px pages must do without scrolling sideways (WCAG 2.2, 1.4.10 Reflow). */
const SIZES: readonly (readonly [width: number, height: number, letters: number])[] = [
  [1180, 780, 16],
  [900, 600, 16],
  [900, 600, 32],
  [320, 640, 16],
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

  it.each(SCREENS)('is for everyone by key and by what axe-core checks, %s', async (_what, logs, screens) => {
    if (logs.length > 0) await chooseLogs(page, ...logs)
    for (const screen of screens) {
      await goToScreen(screen)
      await everyStopIsSeen(screen.name)
      // Opened, all that was there before is there still.
      for (const summary of await page.locator('summary').all()) await summary.click()
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        const violations = await axeViolations(page, colorScheme === 'dark')
        expect(violations, `${screen.name}, ${colorScheme}`).toEqual([])
      }
      await page.emulateMedia({ colorScheme: 'light' })
      const opened = await page.locator('details[open] > summary').all()
      for (const summary of opened.toReversed()) await summary.click()
    }
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

  it('fits every size of window and letters, the lows before the picture', async () => {
    const fits = async (width: number, message: string) =>
      expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth), { message }).toBe(width)
    await chooseLogs(page, OPEN_UNIT, OPEN_COLUMNS, NO_LOG)
    for (const size of SIZES) {
      await resize(...size)
      await fits(size[0], `questions, ${size.join(', ')}`)
    }
    await resize(...SIZES[0])
    page = await journey.freshPage(page)
    await chooseLogs(page, SEASON)
    for (const [width, height, letters] of SIZES) {
      const size = `${width} by ${height}, letters of ${letters}`
      await resize(width, height, letters)
      for (const step of ['Visit', 'Logs', 'Readings', 'Pages', 'Picture'] as const) {
        await goTo(page, step)
        if (step === 'Readings') await shown(page, '.detail')
        if (step === 'Picture') await shown(page, '.large-figures')
        await fits(width, `${step}, ${size}`)
      }
      const lows = await page.locator('.lows').boundingBox()
      const picture = await page.locator('.picture').boundingBox()
      if (!lows || !picture) throw new Error('not shown')
      expect(lows.y + lows.height <= picture.y || lows.x + lows.width <= picture.x, size).toBe(true)
      expect(lows.y, size).toBeLessThanOrEqual(picture.y)
      // Narrower, the picture is moved sideways in its own frame.
      if (width / letters > 50) {
        const frame = page.locator('.picture-frame').first()
        expect(await frame.evaluate((one) => one.scrollWidth - one.clientWidth), size).toBe(0)
      }
    }
    await resize(...SIZES[0])
  })

  it('shows what has the focus where a bar would hide it, and the square of a low, in forced colours too', async () => {
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

    for (const forcedColors of ['none', 'active'] as const) {
      await page.emulateMedia({ forcedColors })
      const square = page.locator('.low .square').first()
      const [mark, ground] = await Promise.all([
        square.screenshot().then(colourOf),
        square.evaluate(() => getComputedStyle(document.body).backgroundColor),
      ])
      expect(mark, forcedColors).toMatch(/^rgb\(\d+, \d+, \d+\)$/)
      expect(mark, forcedColors).not.toBe(ground)
    }
  })
})

/** Sizes the window, and the letters as a person sets them in the browser: 16 px is what it comes with. */
async function resize(width: number, height: number, letters: number): Promise<void> {
  await page.setViewportSize({ width, height })
  const devtools = await page.context().newCDPSession(page)
  await devtools.send('Page.enable')
  await devtools.send('Page.setFontSizes', { fontSizes: { standard: letters } })
}

async function goToScreen({ step, part }: Screen): Promise<void> {
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
async function everyStopIsSeen(screen: string): Promise<void> {
  const wanted = await page
    .locator('button, select, summary, textarea, input:not([type=file]), [tabindex="0"]')
    .evaluateAll((all) =>
      all.filter((one) => one.checkVisibility()).map((one) => one.outerHTML.slice(0, 200)),
    )
  expect(wanted.length, screen).toBeGreaterThan(0)
  const stops = await tabThrough(wanted.length)
  expect(stops.map(({ html }) => html).toSorted(), screen).toEqual(wanted.toSorted())
  expect(
    stops.filter(({ outlined, inView }) => !outlined || !inView),
    screen,
  ).toEqual([])
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
