import { describe, expect, it } from 'vitest'
import { documentOf, edgeLog, pageTexts, pdfOf } from '../../helpers/pages'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

describe('the pages', () => {
  it('number themselves and refer to the pages on which the sections stand', async () => {
    const pages = await pageTexts(await pdfOf(edgeLog('every second reading doubtful')))
    pages.forEach((page, i) => expect(page).toContain(`page ${i + 1} of ${pages.length}`))
    for (const title of ['Doubtful readings', 'Repeat tests that disagree']) {
      const told = new RegExp(`${title}: page (\\d+)`).exec(pages.join(' '))
      const stands = pages.findIndex((page) => new RegExp(`${title}(?!:)`).test(page))
      expect([title, Number(told?.[1])]).toEqual([title, stands + 1])
    }
  })

  it('carry label, period, date of making and fingerprint on every sheet', async () => {
    const analysis = analysisOf(inventedLog({ days: 60 }))
    for (const page of await pageTexts(await pdfOf(analysis, { label: 'Visit on Thursday' }))) {
      expect(page).toContain('Visit on Thursday')
      expect(page).toContain('2 March to 30 April 2026')
      expect(page).toContain('made 4 June 2026')
      expect(page).toContain(`log 1: ${analysis.sources[0].sha256.slice(0, 8)}`)
    }
  })

  it('never show a file’s name or path', () => {
    expect(JSON.stringify(documentOf(edgeLog('one reading')))).not.toContain('patient-4711')
  })

  it('hold SD, CV and the estimated A1C back below 15 readings, the estimate also below 14 days, and say so', async () => {
    const [fourteen] = await pageTexts(
      await pdfOf(analysisOf(inventedLog({ days: 30, repeats: 0 }).slice(0, 14))),
    )
    const [fifteen] = await pageTexts(
      await pdfOf(analysisOf(inventedLog({ days: 30, repeats: 0 }).slice(0, 15))),
    )
    expect(fourteen.match(/not shown: fewer than 15 readings/g)).toHaveLength(3)
    expect(fifteen.match(/not shown: fewer/g)).toHaveLength(1)
    expect(fifteen).toContain('not shown: fewer than 14 days with readings')
    const [month] = await pageTexts(await pdfOf(analysisOf(inventedLog({ days: 30, repeats: 0 }))))
    expect(month).not.toContain('not shown: fewer')
  })

  it('list every low of a usual log one by one, also the doubtful ones', async () => {
    const analysis = edgeLog('forty lows, LO and HI')
    const pages = (await pageTexts(await pdfOf(analysis))).join(' ')
    const listed = pages.slice(pages.indexOf('Each low'), pages.indexOf('The day in blocks'))
    const low = analysis.periods[0].lows.readingsBelow70
    expect(low).toBeGreaterThanOrEqual(40)
    // Sets of repeats share a square; here no low was repeated.
    expect(listed.match(/■ (LO|\d+)/g)).toHaveLength(low)
  })

  it('tell how well mean and share are known from eight days with readings on, and below that why not', async () => {
    const pages = async (days: number) => pageTexts(await pdfOf(analysisOf(inventedLog({ days }))))
    const [sevenFirst, ...seven] = await pages(7)
    expect(seven.join(' ')).toContain('too few days (fewer than 8) to say how well it is known')
    expect(sevenFirst).not.toMatch(/known to (about )?[±\d]/)
    const [first, ...rest] = await pages(30)
    const behind = rest.join(' ')
    expect(first).toMatch(/known to ±\d+/)
    expect(behind).toMatch(/known to about ±\d+; median/)
    expect(behind).toMatch(/could be \d+ to \d+ %; of readings, not of time/)
    const whole = await pageTexts(await pdfOf(analysisOf(inventedLog({ days: 30 })), { wholeMethod: true }))
    expect(whole.join(' ')).toMatch(/How well the figures are known .*Mean, mg\/dL \d+ \d+–\d+/)
  })

  it('print no second column where more than a tenth is doubtful', async () => {
    const [first, ...behind] = await pageTexts(await pdfOf(edgeLog('every second reading doubtful')))
    expect(first).toContain('more than one in ten: look for one cause')
    expect(first).not.toContain('Without the doubtful')
    expect(behind.join(' ')).toContain('no second column is printed')
    expect(behind.join(' ')).not.toContain('doubtful left out')
  })

  it('show a visible sign for letters the type lacks, and say so', async () => {
    const log = inventedLog({ days: 20 })
    const noted = [...log, { at: '2026-03-25 10:00', value: 58, note: '低血糖 — приступ 🍬' } as const]
    const pages = (await pageTexts(await pdfOf(analysisOf(noted)))).join(' ')
    expect(pages).toContain('□□□ — приступ □')
    expect(pages).toContain('does not have')
  })

  it('are made afresh: the same analysis gives the same document twice', () => {
    const analysis = edgeLog('three meters, mmol/L')
    expect(documentOf(analysis)).toEqual(documentOf(analysis))
  })
})

describe('the readings by meal', () => {
  it('stand where the log tells meals, held against goals, and nowhere else', async () => {
    const told = analysisOf(inventedLog({ days: 30 }))
    const untold = analysisOf(inventedLog({ days: 30 }).map((reading) => ({ ...reading, meal: '' })))
    const pages = (await pageTexts(await pdfOf(told))).join(' ')
    expect(pages).toContain('By meal')
    expect(pages).toContain('before meals 80 to 130, below 180 one to two hours')
    expect(pages).toContain('What next month could answer')
    expect((await pageTexts(await pdfOf(untold))).join(' ')).not.toContain('within goal')
  })

  it('are closed by a row of those without a tag, with their lows', async () => {
    const tagged = inventedLog({ days: 30, repeats: 0, centre: 125, spread: 0.1 })
    const rows = [
      ...tagged,
      ...[5, 9, 13].map((day) => ({ at: `2026-03-${day < 10 ? 0 : ''}${day} 15:10`, value: 58 + day })),
    ]
    const pages = (of: typeof rows) =>
      pdfOf(analysisOf(of))
        .then(pageTexts)
        .then((texts) => texts.join(' '))
    expect(await pages(rows)).toMatch(
      /without a tag 3 3 67 65–69 63 71 2 –.*without a tag 3 67 – 65–69 63 71 2 – –/,
    )
    expect(await pages([...tagged])).toMatch(/without a tag 0 – – – – – 0 – –/)
  })

  it('stand on the first page where it has room', async () => {
    const rows = inventedLog({ days: 30, repeats: 0, centre: 125, spread: 0.1 })
    const [first] = await pageTexts(await pdfOf(analysisOf(rows)))
    expect(first).toContain('By meal')
    expect(first).toContain('What stands out')
    expect(first).toContain('Can readings be trusted?')
  })
})

describe('the line for the name', () => {
  it('holds the label on every page where one is given, else 80 mm for the pen', async () => {
    const log = analysisOf(inventedLog({ days: 20 }))
    const [blank, labelled] = await Promise.all([
      pageTexts(await pdfOf(log)),
      pageTexts(await pdfOf(log, { label: 'Clinic number 7, Thursday' })),
    ])
    for (const page of blank) expect(page).toMatch(/Name \/ date of birth _{45}/)
    for (const page of labelled) expect(page).toContain('Name / date of birth Clinic number 7, Thursday')
    expect(labelled.join(' ')).not.toContain('birth _')
  })

  it('is cut where the label is long, which then stands in full under the title', async () => {
    const label = `${'Ward seven, '.repeat(10)}end`
    const [first, second] = await pageTexts(await pdfOf(analysisOf(inventedLog({ days: 20 })), { label }))
    expect(first.replace(/\u200b/g, '')).toContain(label)
    expect(second).toContain('Ward seven, Ward')
    expect(second).toContain('…')
  })
})

describe('what a practice writes', () => {
  it('is printed as it was told, and else left for the pen', async () => {
    const kit = { diabetes: 'type 1, since 1994', treatment: 'two insulins' }
    const [first] = await pageTexts(await pdfOf(analysisOf(inventedLog({ days: 20 }), { kit })))
    expect(first).toContain('Diabetes type / since: type 1, since 1994')
    expect(first).toContain('Treatment: two insulins')
    expect(first).toMatch(/Target: _+/)
  })
})
