import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import { chooseLogs, goTo, type Journey, SAME_MOMENT, shown, startJourney } from '../helpers/browserJourney'
import { describeJourney } from '../helpers/chromium'
import { runCli, sample } from '../helpers/runCli'

// From a log to its report in the built program: the window in a browser against the command line.

const SEASON = sample('season-two-meters.csv')

/** Values that are low in mg/dL and usual in mmol/L, in a log that names no unit. */
const NO_UNIT = {
  name: 'no-unit.csv',
  text: 'Date,Time,Glucose\n2026-03-02,07:00,25\n2026-03-02,12:00,28\n2026-03-03,07:00,22\n2026-03-03,12:00,31\n',
}
const NO_LOG = { name: 'photo.csv', text: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) }

interface SummaryJson {
  readonly n: number
  readonly meanMgDl: number
  readonly sdMgDl: number
  readonly cvPercent: number
  readonly medianMgDl: number
  readonly q1MgDl: number
  readonly q3MgDl: number
  readonly percentInTarget: number
  readonly percentAbove180: number
  readonly percentAbove250: number
}

interface ReportJson {
  readonly readings: { readonly n: number }
  readonly periods: readonly [
    {
      readonly days: number
      readonly daysWithReadings: number
      readonly asLogged: SummaryJson
      readonly checked: SummaryJson
      readonly latestA1c: { readonly rangePercent: readonly [number, number] }
      readonly lows: { readonly readingsBelow70: number; readonly readingsBelow54: number }
    },
  ]
  readonly technique: { readonly doubtful: readonly { readonly source: number; readonly line: number }[] }
}

/** 1 mmol/L = 18.0156 mg/dL (glucose, 180.156 g/mol). */
const MG_DL_PER_MMOL_L = 18.0156

/** Rounded as printed: halves away from zero; no figure here is below zero. */
function rounded(value: number, decimals = 0): string {
  // Twelve digits take back what the conversion of units adds to an exact half.
  const scaled = Number((value * 10 ** decimals).toPrecision(12))
  return (Math.floor(scaled + 0.5) / 10 ** decimals).toFixed(decimals)
}

function cli(log: string, ...options: readonly string[]): string {
  const { status, stdout, stderr } = runCli([log, ...options], { cwd: folder, env: SAME_MOMENT })
  expect(stderr).toBe('')
  expect(status).toBe(0)
  return stdout
}

const made = new Map<string, ReportJson>()

/** What the command line tells of a log, its readings written beside it; asked once. */
function jsonOf(log: string): ReportJson {
  const json =
    made.get(log) ??
    (JSON.parse(cli(log, '--no-pdf', '--json', '-', '--readings', readingsOf(log))) as ReportJson)
  made.set(log, json)
  return json
}

const readingsOf = (log: string) => `readings-of-${basename(log)}`

/** The rows of the table of figures: name with its unit, as logged, doubtful left out. */
async function figures(page: Page): Promise<readonly string[][]> {
  return page
    .locator('.figures tbody tr')
    .evaluateAll((rows) =>
      rows.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').trim())),
    )
}

let folder = ''
let journey: Journey
let page: Page

describeJourney('from a log to its report', () => {
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'journey-'))
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

  it('starts with what to do', async () => {
    await expect.poll(() => page.title()).toBe('Visit report')
    expect(await (await shown(page, 'main')).innerText()).toContain('Choose the logs of your meters')
    await expect
      .poll(() => page.getByRole('button').allInnerTexts())
      .toEqual(['Choose logs', 'Try it with a sample', 'Open a visit', 'Type readings'])
    await expect.poll(() => page.locator('footer').innerText()).toContain('Not for dosing decisions.')
  })

  it.each([
    ['mg/dL', SEASON, '70', '70 to 180', '180', '250'],
    ['mmol/L', sample('europe-mmol.csv'), '3.9', '3.9 to 10.0', '10.0', '13.9'],
  ])(
    'shows the figures that the command line writes, in %s',
    async (unit, log, low, target, high, veryHigh) => {
      await chooseLogs(page, log)
      const {
        readings,
        periods: [period],
      } = jsonOf(log)
      await expect
        .poll(() => page.locator('.opened-heading p').innerText())
        .toBe(`${readings.n} readings on ${period.daysWithReadings} of ${period.days} days`)
      const glucose = (mgDl: number) =>
        unit === 'mg/dL' ? rounded(mgDl) : rounded(mgDl / MG_DL_PER_MMOL_L, 1)
      const a1c = period.latestA1c.rangePercent.map((end) => rounded(end, 1)).join('–')
      const texts = (summary: SummaryJson, estimate: unknown) => [
        String(period.lows.readingsBelow70),
        glucose(summary.meanMgDl),
        glucose(summary.sdMgDl),
        rounded(summary.cvPercent),
        glucose(summary.medianMgDl),
        `${glucose(summary.q1MgDl)}–${glucose(summary.q3MgDl)}`,
        rounded(summary.percentInTarget),
        rounded(summary.percentAbove180),
        rounded(summary.percentAbove250),
        estimate,
      ]
      const names = [
        `Readings below ${low}`,
        `Mean ${unit}`,
        `SD ${unit}`,
        'Coefficient of variation %',
        `Median ${unit}`,
        `Half of the readings lie ${unit}`,
        `Readings ${target} %`,
        `Readings above ${high} %`,
        `Readings above ${veryHigh} %`,
        `Estimated A1C %, over ${period.days} days, ${period.daysWithReadings} with readings, from finger-sticks, not a laboratory A1C`,
      ]
      const asLogged = texts(period.asLogged, a1c)
      // The JSON has the estimate as logged alone.
      const checked = texts(period.checked, expect.stringMatching(/^\d\.\d–\d\.\d$/))
      await expect.poll(() => figures(page)).toEqual(names.map((name, i) => [name, asLogged[i], checked[i]]))
    },
  )

  it('lists every low, doubtful ones too, before all else of the visit', async () => {
    await chooseLogs(page, SEASON)
    const json = jsonOf(SEASON)
    const doubtful = new Set(json.technique.doubtful.map(({ line }) => line))
    const [header, ...rows] = readFileSync(join(folder, readingsOf(SEASON)), 'utf8')
      .trimEnd()
      .split('\n')
    const columns = header.split(',')
    // No cell before the notes holds a comma, and the line is found from the end.
    const lows = rows
      .map((row) => {
        const cells = row.split(',')
        const fromEnd = (name: string) => cells[cells.length - columns.length + columns.indexOf(name)]
        return { mgDl: Number(cells[1]), below: cells[3] === 'below', line: Number(fromEnd('line')) }
      })
      .filter(({ mgDl }) => mgDl < 70)
      .map(({ mgDl, below, line }) => `${below ? 'LO' : mgDl}${doubtful.has(line) ? '?' : ''}`)
    expect(lows).toHaveLength(json.periods[0].lows.readingsBelow70)
    expect(lows.filter((low) => low.endsWith('?'))).not.toEqual([])

    const shownValues = await page.locator('.low-values').allInnerTexts()
    const listed = shownValues.flatMap((text) =>
      text
        .replace(/\(.*\)/s, '')
        .trim()
        .split(' → '),
    )
    const isLow = (value: string) => value.startsWith('LO') || parseInt(value) < 70
    expect(listed.filter(isLow).toSorted()).toEqual(lows.toSorted())

    const headline = await page.locator('.lows h3 + p').innerText()
    expect(headline.replaceAll('\u00a0', ' ')).toMatch(
      new RegExp(
        `^${lows.length} readings below 70, on .*; ${json.periods[0].lows.readingsBelow54} below 54\\.`,
      ),
    )
    expect(
      await page.locator('section').evaluateAll((all) => all.map((one) => one.getAttribute('class'))),
    ).toEqual(['lows', null, 'each-low', 'picture', 'stands-out', 'figures', 'trust', null, null])
  })

  it('draws the day as SVG with its text alternative, in the colours of the theme', async () => {
    await chooseLogs(page, SEASON)
    const inWords = await page.locator('.picture details p').first().textContent()
    expect(inWords).toContain('11 lows, lowest first: LO on 22 April')
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      const picture = page.locator('.picture').getByRole('img')
      await expect.poll(() => picture.count()).toBe(1)
      expect(await picture.evaluate((element) => element.tagName)).toBe('svg')
      await expect.poll(() => picture.getAttribute('aria-label')).toBe(inWords)
      await expect
        .poll(() => picture.locator('text').allTextContents())
        .toEqual(
          expect.arrayContaining(['180 upper end of target', '70 low', '54 very low', 'median', 'readings']),
        )
    }
  })

  it('saves the PDF that the command line writes, byte for byte', async () => {
    await chooseLogs(page, SEASON)
    const saved = await savedPdf()
    expect(saved.name).toBe('visit-report-2026-03-02-to-2026-05-30.pdf')
    expect(saved.bytes.subarray(0, 5).toString()).toBe('%PDF-')
    // A difference is not printed byte by byte.
    expect(saved.bytes.equals(pdfOf(SEASON))).toBe(true)
    await goTo(page, 'Pages')
    await page.getByLabel('At the head of each page').fill('North clinic, room 4')
    await page.getByLabel('Paper').selectOption('Letter')
    await page.getByLabel('Diary').selectOption('latest 14 days')
    const letter = pdfOf(SEASON, '--paper', 'Letter', '--label', 'North clinic, room 4', '--diary', '14')
    expect(letter.equals(saved.bytes)).toBe(false)
    expect((await savedPdf()).bytes.equals(letter)).toBe(true)
  })

  it('asks what a log leaves open, and takes the answer in place', async () => {
    await chooseLogs(page, NO_UNIT)
    const stopped = page.locator('.logs-screen')
    await expect.poll(() => stopped.innerText()).toContain('The log does not say its unit')
    await expect
      .poll(() => stopped.locator('.choice').allInnerTexts())
      .toEqual([expect.stringMatching(/^mg\/dL/), expect.stringMatching(/^mmol\/L/)])
    await page.getByRole('button', { name: /^mmol\/L/ }).click()
    await shown(page, '.figures')
    expect((await figures(page))[0]).toEqual(['Readings below 3.9', '0'])
    await expect.poll(() => page.locator('.guesses').textContent()).toContain('Unit mmol/L, as answered.')

    await goTo(page, 'Logs')
    await page.getByRole('button', { name: /^Take back/ }).click()
    await page.getByRole('button', { name: /^mg\/dL/ }).click()
    await shown(page, '.logs-screen .actions')
    await goTo(page, 'Picture')
    await page.locator('.figures').getByText('Readings below 70').waitFor()
    expect((await figures(page))[0]).toEqual(['Readings below 70', '4'])
  })

  it('says why a file is no log, and what to do, and opens nothing', async () => {
    await chooseLogs(page, NO_LOG)
    const told = await page.getByRole('alert').innerText()
    expect(told).toContain('photo.csv: The file is a picture, not a CSV file. Export the readings as CSV')
    await expect.poll(() => page.locator('.start').count()).toBe(1)
  })

  it('asks about one log while another that is none is told, and opens the rest once that is settled', async () => {
    await chooseLogs(page, NO_LOG, NO_UNIT, SEASON)
    await expect.poll(() => page.getByRole('alert').innerText()).toContain('photo.csv: The file is a picture')
    await expect
      .poll(() => page.locator('.logs-screen h3').allInnerTexts())
      .toEqual(['no-unit.csv', basename(SEASON)])
    await expect.poll(() => page.locator('fieldset').count()).toBe(1)
    await page.getByRole('button', { name: 'Remove no-unit.csv' }).click()
    await shown(page, '.opened')
    await goTo(page, 'Logs')
    await expect.poll(() => page.locator('.logs-screen h3').allInnerTexts()).toEqual([basename(SEASON)])
  })

  it('takes files that are dropped on it', async () => {
    const dropped = await page.evaluateHandle(
      (text) => {
        const data = new DataTransfer()
        data.items.add(new File([text], 'dropped.csv', { type: 'text/csv' }))
        return data
      },
      readFileSync(SEASON, 'utf8'),
    )
    await page.dispatchEvent('.start', 'drop', { dataTransfer: dropped })
    await shown(page, '.opened')
    await goTo(page, 'Logs')
    await expect.poll(() => page.locator('.logs-screen h3').allInnerTexts()).toEqual(['dropped.csv'])
  })

  it('shows names and cells of a log as text, whatever they hold', async () => {
    const mark = '<img src=x onerror=alert(1)>'
    const text = `Date,Time,Glucose (mg/dL),Meter,Note\n2026-03-02,07:00,61,${mark},${mark}\n2026-03-02,12:00,,${mark},${mark}\n`
    await chooseLogs(page, { name: `${mark.replaceAll('/', '')}.csv`, text })
    await goTo(page, 'Logs')
    for (const summary of await page.locator('summary').all()) await summary.click()
    await expect
      .poll(() => page.locator('.logs-screen code').innerText())
      .toBe(`2026-03-02,12:00,,${mark},${mark}`)
    await expect.poll(() => page.locator('.logs-screen h3').innerText()).toBe(`${mark}.csv`)
    await expect.poll(() => page.locator('img, script:not([src])').count()).toBe(0)
  })

  it('says so, and what to do, once the program behind the window has ended', async () => {
    await chooseLogs(page, NO_UNIT)
    await journey.endHost()
    await page.getByRole('button', { name: /^mg\/dL/ }).click()
    expect(await (await shown(page, '[role=alert]')).innerText()).toBe(
      'The program behind this window has ended. Start it again with npm run browser.',
    )
    // What was there stays.
    await expect.poll(() => page.locator('.choice').count()).toBe(2)
  })

  async function savedPdf(): Promise<{ readonly name: string; readonly bytes: Buffer }> {
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Save PDF' }).first().click()
    const file = await download
    const bytes = readFileSync(await file.path())
    await page.getByText(`Made ${file.suggestedFilename()}.`).waitFor()
    return { name: file.suggestedFilename(), bytes }
  }

  function pdfOf(log: string, ...options: readonly string[]): Buffer {
    cli(log, '--out', 'report.pdf', ...options)
    return readFileSync(join(folder, 'report.pdf'))
  }
})
