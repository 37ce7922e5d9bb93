import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { tellsMeals } from '../../../src-core/day/meals'
import type { Kit } from '../../../src-core/kit/kit'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import type { PageOptions } from '../../../src-core/report/context'
import { dayOf, parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { logbookOf } from '../../helpers/logs'
import { edgeLog, pdfOf } from '../../helpers/pages'
import { sample } from '../../helpers/runCli'

// The first page whatever a log holds, as readers of the PDF that are none of the program's see it: one sheet, few words,
// type that is read at arm's length, all its sections.

const day = (date: string) => parseIsoDay(date) ?? 0
const some = <T>(n: number, value: (i: number) => T) => Array.from({ length: n }, (_, i) => value(i))
const dateOf = (i: number) => new Date(Date.UTC(2026, 0, 5 + i)).toISOString().slice(0, 10)

/** One reading a day, at seven. */
const daily = (n: number, value: (i: number) => FixtureReading['value'], note = '') =>
  some(n, (i) => ({ at: `${dateOf(i)} 07:10`, value: value(i), note }))

const long = (word: string, length: number) => `${word} `.repeat(Math.ceil(length / (word.length + 1))).trim()

const WEIGHTY_KIT: Kit = {
  changes: some(200, (i) => long(`change-${i}`, 1_900)),
  questions: some(200, (i) => long(`question-${i}?`, 1_900)),
  medicines: some(200, (i) => ({
    name:
      i % 3 === 0 ? `vitamin C ${long('drops', 300)}` : i % 3 === 1 ? `icodextrin ${i}` : `paracetamol ${i}`,
    milligramsADay: 3_000,
  })),
  laboratoryA1c: some(60, (i) => ({
    date: `2026-03-${String((i % 28) + 1).padStart(2, '0')}`,
    percent: 7.1,
  })),
  teachings: some(60, () => ({ date: '2026-03-04', about: long('washing', 1_900) })),
  canCauseLows: true,
  diabetes: long('type', 1_900),
  treatment: long('insulin', 1_900),
  agreedTargets: long('target', 1_900),
}

const TRIALS: readonly FixtureReading[] = [
  ...some(3, (i) => ({ at: `2026-03-08 10:0${i}`, value: 119 + i, note: 'trial: washed and dried' })),
  ...some(6, (i) => ({
    at: `2026-03-08 10:${10 + 3 * i}`,
    value: i % 2 ? 180 + i : 108 + i,
    note: i % 2 ? 'trial: orange juice left on the finger and not wiped off' : 'trial: wet finger',
  })),
  { at: '2026-03-08 10:40', value: 121, note: 'trial: washed again' },
]

const HEBREW = 'הרגשתי רעד והזעה אחרי הליכה ארוכה, אכלתי שלוש קוביות סוכר'

function sampleOf(name: string, kit: Kit = {}): Analysis {
  const logbook = logbookOf([readFileSync(sample(name), 'utf8')])
  const { at, n } = logbook.readings
  const [{ unit }] = logbook.sources
  return analyse({
    ...logbook,
    kit,
    decisions: [],
    settings: { ...DEFAULT_SETTINGS, unit: unit.value === 'mmol/L' ? 'mmol/L' : 'mg/dL' },
    periods: [{ from: dayOf(at[0]), to: dayOf(at[n - 1]) }],
  })
}

const LOGS: Readonly<Record<string, () => Analysis>> = {
  'sample of a season': () =>
    sampleOf('season-two-meters.csv', JSON.parse(readFileSync(sample('season-kit.json'), 'utf8')) as Kit),
  'sample of two months': () => sampleOf('two-months.csv'),
  'sample in mmol/L': () => sampleOf('europe-mmol.csv'),
  'sample of a morning of technique': () => sampleOf('technique-morning.csv'),
  'one reading': () => edgeLog('one reading'),
  'days without times': () => edgeLog('days without times'),
  'forty lows, LO and HI': () => edgeLog('forty lows, LO and HI'),
  'every second reading doubtful': () => edgeLog('every second reading doubtful'),
  'three meters, mmol/L': () => edgeLog('three meters, mmol/L'),
  'ten years': () => edgeLog('ten years'),
  'HI alone': () => analysisOf(daily(60, () => 'HI')),
  'LO alone': () => analysisOf(daily(60, () => 'LO')),
  'four hundred lows': () =>
    analysisOf(
      some(1_000, (i) => ({
        at: `${dateOf(Math.floor(i / 6))} ${String((i % 6) * 4 + 1).padStart(2, '0')}:${i % 6}0`,
        value: i % 5 < 2 ? 40 + (i % 29) : 120 + ((i * 37) % 150),
        note: i % 5 < 2 ? 'shaky and sweating after a long walk along the coast' : '',
      })),
    ),
  'lows with many readings in a row': () =>
    analysisOf(
      some(60, (d) => d).flatMap((d) =>
        some(9, (i) => ({
          at: `${dateOf(d)} 15:${String(5 * i).padStart(2, '0')}`,
          value: i === 8 ? 101 : i === 0 ? ('LO' as const) : 47 + i,
          note: i === 0 ? 'found by the neighbour, glucagon given' : '',
        })),
      ),
    ),
  'a sensor': () =>
    analysisOf(
      some(14 * 96, (i) => ({
        at: `${dateOf(Math.floor(i / 96))} ${String(Math.floor((i % 96) / 4)).padStart(2, '0')}:${String(15 * (i % 4)).padStart(2, '0')}`,
        value: 60 + ((i * 7) % 170),
        sensor: true,
      })),
    ),
  'a sensor with lows of hours': () =>
    analysisOf(
      some(14 * 288, (i) => ({
        at: `${dateOf(Math.floor(i / 288))} ${String(Math.floor((i % 288) / 12)).padStart(2, '0')}:${String(5 * (i % 12)).padStart(2, '0')}`,
        value: i % 288 < 60 ? 45 + (i % 20) : 140 + (i % 30),
        sensor: true,
      })),
    ),
  'one fasting test a day': () => analysisOf(daily(80, (i) => 90 + ((i * 37) % 90))),
  'a morning of trials': () => analysisOf(TRIALS),
  'a kit with two hundred of everything': () =>
    analysisOf(inventedLog({ days: 90, spread: 0.45, repeats: 0.2 }), { kit: WEIGHTY_KIT }),
  'a kit beside forty lows': () =>
    analysisOf([...inventedLog({ days: 60, centre: 100, spread: 0.5, repeats: 0.3, wrong: 0.3 })], {
      kit: WEIGHTY_KIT,
    }),
  'notes from right to left': () =>
    analysisOf(inventedLog({ days: 60, centre: 110, spread: 0.4 }).map((one) => ({ ...one, note: HEBREW }))),
  'a note of one long word': () =>
    analysisOf(daily(60, (i) => 50 + i, 'w'.repeat(2_000)).map((one) => ({ ...one, meal: 'fasting' }))),
  'two periods': () =>
    analysisOf(inventedLog({ days: 120, centre: 120, spread: 0.45, repeats: 0.2 }), {
      period: { from: day('2026-05-01'), to: day('2026-06-29') },
      versus: { from: day('2026-03-02'), to: day('2026-04-30') },
      kit: WEIGHTY_KIT,
    }),
}
const LABEL = long('Ward 12, endocrinology, Thursday', 500)

const MOST_WORDS = 450
const SMALLEST = { any: 9.5, person: 10 } as const
/** Of the file's own rounding. */
const ROUNDING = 0.01

interface Seen {
  readonly pages: number
  readonly texts: readonly { readonly text: string; readonly size: number }[]
}

/** What another library finds in a PDF: its pages and the texts of the first with their size of type. */
async function seenIn(pdf: Uint8Array): Promise<Seen> {
  const document = await getDocumentProxy(new Uint8Array(pdf))
  const { items } = await (await document.getPage(1)).getTextContent()
  const texts = items.flatMap((item) =>
    'str' in item && item.str.trim() !== ''
      ? [{ text: item.str, size: Math.hypot(Number(item.transform[2]), Number(item.transform[3])) }]
      : [],
  )
  return { pages: document.numPages, texts }
}

const made = new Map<string, Analysis>()
function logOf(name: string): Analysis {
  const analysis = made.get(name) ?? LOGS[name]()
  made.set(name, analysis)
  return analysis
}

const CAN_READ = spawnSync('pdftotext', ['-v']).status !== null
let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'visit-report-first-page-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true })
})

/** Words with a letter in them, as pdftotext gives them. */
function wordsOn(pdf: Uint8Array): readonly string[] {
  const path = join(folder, 'first.pdf')
  writeFileSync(path, pdf)
  const text = execFileSync('pdftotext', ['-l', '1', path, '-'], { encoding: 'utf8' })
  return text.split(/\s+/).filter((word) => /\p{L}/u.test(word))
}

const NAMES = Object.keys(LOGS)
/** Letter leaves less room: all logs on it, every third on A4 too. */
const ON_PAPER = { A4: NAMES.filter((_, i) => i % 3 === 0), Letter: NAMES }

describe.each(['A4', 'Letter'] as const)('the first page on %s', (paper) => {
  it.each(ON_PAPER[paper])('is one sheet that is read in minutes: %s', async (name) => {
    const analysis = logOf(name)
    const options: Partial<PageOptions> = { paper, onePage: true, label: name === 'ten years' ? null : LABEL }
    const pdf = await pdfOf(analysis, options)
    const { pages, texts } = await seenIn(pdf)
    const text = texts.map((one) => one.text).join(' ')
    const [{ byMeal, kind }] = analysis.periods

    expect(pages).toBe(1)
    expect(texts.filter(({ size }) => size < SMALLEST.any - ROUNDING)).toEqual([])
    if (CAN_READ) expect(wordsOn(pdf).length).toBeLessThanOrEqual(MOST_WORDS)
    const titles = [
      'Do not change doses',
      'Lows first',
      'Highs and numbers',
      'The day',
      ...(tellsMeals(byMeal) ? ['By meal'] : []),
      ...(kind === 'sensor' ? [] : ['What stands out']),
      'Can readings be trusted?',
      'Agreed today',
    ]
    const places = titles.map((title) => text.indexOf(title))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
    const ofPerson = /Do not change doses|Diabetes type|My first question|Glucagon at home|Agreed today/
    const lines = texts.filter((one) => ofPerson.test(one.text))
    expect(lines.length).toBeGreaterThanOrEqual(4)
    expect(lines.filter(({ size }) => size < SMALLEST.person - ROUNDING)).toEqual([])
  })
})

describe('what the first page says', () => {
  const page = async (analysis: Analysis) =>
    (await seenIn(await pdfOf(analysis, { onePage: true }))).texts
      .map(({ text }) => text)
      .join(' ')
      .replace(/\s+/g, ' ')

  it('counts every low, and names which where not all stand in the list', async () => {
    const analysis = logOf('four hundred lows')
    const text = await page(analysis)
    const { readingsBelow70, readingsBelow54 } = analysis.periods[0].lows
    expect(readingsBelow70).toBe(400)
    expect(text).toContain(`${readingsBelow70} readings below 70, ${readingsBelow54} below 54`)
    expect(text).toMatch(/The \d+ lowest of \d+ are listed/)
    expect(text).toContain('■ 40')
  })

  it('says as large as what is known that nothing is known of the rest of the day', async () => {
    const text = await page(logOf('one fasting test a day'))
    expect(text).toContain('All tests were between 07:00 and 08:00. The rest of the day is unknown.')
    expect(text).toContain('not shown: all tests between 07:00 and 08:00')
  })

  it('shows no figures of a morning of trials, but its lows and what was tried', async () => {
    const text = await page(logOf('a morning of trials'))
    expect(text).toContain('no mean, SD or A1C is shown')
    expect(text).not.toMatch(/Estimated A1C|known to|Without the doubtful/)
    expect(text).toMatch(/‘wet.*not shown|‘orange juice.*an effect/)
    expect(await page(analysisOf([...TRIALS, { at: '2026-03-08 12:00', value: 50 }]))).toContain('■ 50')
  })

  it('names that somebody had to help, with the lows', async () => {
    expect(await page(logOf('lows with many readings in a row'))).toContain('help needed')
  })

  it('names at most three medicines that disturb strips, the most dangerous first', async () => {
    const text = await page(logOf('a kit with two hundred of everything'))
    expect(text).toMatch(/icodextrin/i)
    expect(text.indexOf('codextrin')).toBeLessThan(text.indexOf('Lows first'))
  })
})
