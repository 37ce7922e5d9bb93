import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import type { RefusalView } from '../../src-core/bridge/stoppedView'
import { AnswersGiven } from '../../src-renderer/parts/AnswersGiven'
import { Bar } from '../../src-renderer/parts/Bar'
import { Figures } from '../../src-renderer/parts/Figures'
import { Foot } from '../../src-renderer/parts/Foot'
import { Logs } from '../../src-renderer/parts/Logs'
import { Lows } from '../../src-renderer/parts/Lows'
import { Pages } from '../../src-renderer/parts/Pages'
import { Picture } from '../../src-renderer/parts/Picture'
import { StartScreen } from '../../src-renderer/parts/StartScreen'
import { StoppedScreen } from '../../src-renderer/parts/StoppedScreen'
import { StandsOut } from '../../src-renderer/parts/StandsOut'
import { Trust } from '../../src-renderer/parts/Trust'
import { unbroken } from '../../src-renderer/parts/unbroken'

const nothing = () => undefined

/** What is read of a piece of the window: its texts, each tag as a break, unbreakable spaces as spaces. */
function texts(element: React.ReactElement): readonly string[] {
  return renderToStaticMarkup(element)
    .replaceAll('\u00a0', ' ')
    .split(/<[^>]*>/)
    .filter((text) => text.trim() !== '')
}

function low(values: string, doubtful = false) {
  return { moment: '31 March, 22:15', values, doubtful, after: 'next test 109 after 40 min' }
}

describe('the lows', () => {
  const LOWS = {
    headline: '2 readings below 70, on 1 day; none below 54.',
    items: [low('67'), low('52 → 90')],
    remarks: ['Night (00–06) was tested on 9 of 90 nights; lows there would not show.'],
  }

  it('stand with moment, values and what the next test read, then with what the list cannot show', () => {
    expect(texts(<Lows lows={LOWS} unit="mg/dL" />)).toEqual([
      'Lows ',
      'in mg/dL',
      LOWS.headline,
      '31 March, 22:15',
      '67',
      'next test 109 after 40 min',
      '31 March, 22:15',
      '52 → 90',
      'next test 109 after 40 min',
      ...LOWS.remarks,
    ])
  })

  it('stay listed and marked where they are doubtful, never struck through', () => {
    const markup = renderToStaticMarkup(
      <Lows lows={{ ...LOWS, items: [low('67?', true), low('58')] }} unit="mg/dL" />,
    )
    expect(markup.match(/<li/g)).toHaveLength(2)
    expect(markup.match(/class="square"/g)).toHaveLength(2)
    expect(markup.match(/67\?<span class="unseen"> \(doubtful, stays counted\)<\/span>/g)).toHaveLength(1)
    expect(markup).not.toMatch(/<(s|del|strike)\b|line-through/)
  })

  it('are all there, eight at once and the others behind', () => {
    const items = Array.from({ length: 11 }, (_, i) => low(String(50 + i)))
    const markup = renderToStaticMarkup(<Lows lows={{ ...LOWS, items }} unit="mg/dL" />)
    const [atOnce, behind] = markup.split('<details>')
    expect(atOnce.match(/<li/g)).toHaveLength(8)
    expect(behind.match(/<li/g)).toHaveLength(3)
    expect(behind).toContain('<summary>3 more</summary>')
    for (const { values } of items) expect(markup).toContain(`</span>${values}</b>`)
    expect(renderToStaticMarkup(<Lows lows={{ ...LOWS, items: items.slice(3) }} unit="" />)).not.toContain(
      'more',
    )
  })

  it('that are none are said to be none, without an empty list', () => {
    const none = {
      headline: 'No low was recorded. That does not show that there were none.',
      items: [],
      remarks: [],
    }
    const element = <Lows lows={none} unit="mg/dL" />
    expect(texts(element)).toEqual(['Lows ', none.headline])
    expect(renderToStaticMarkup(element)).not.toContain('<ol')
  })
})

describe('the figures', () => {
  const FIGURES = {
    rows: [
      { name: 'Readings below 70', unit: '', asLogged: '3', checked: '3' },
      { name: 'Mean', unit: 'mg/dL', asLogged: '144', checked: '141' },
    ],
    showsChecked: true,
    remarks: ['In the second column repeats of one moment count once.'],
  }

  it('stand as logged and with doubtful readings left out, the lows the same in both', () => {
    expect(texts(<Figures figures={FIGURES} />)).toEqual([
      'Figures',
      'Figure',
      'As logged',
      'Doubtful left out',
      ...['Readings below 70 ', '3', '3'],
      ...['Mean ', 'mg/dL', '144', '141'],
      ...FIGURES.remarks,
    ])
  })

  it('have one column where nothing would be left out', () => {
    const read = texts(<Figures figures={{ ...FIGURES, showsChecked: false }} />)
    expect(read).not.toContain('Doubtful left out')
    expect(read).not.toContain('141')
    expect(read).toContain('144')
  })

  it('have headers for their rows and columns', () => {
    const markup = renderToStaticMarkup(<Figures figures={FIGURES} />)
    expect(markup.match(/<th scope="row">/g)).toHaveLength(2)
    expect(markup.match(/<th scope="col">/g)).toHaveLength(3)
  })
})

describe('what stands in the way of opening logs', () => {
  const LOG = { name: 'a.csv', bytes: new Uint8Array() }
  const ASKS: RefusalView = {
    log: 'a.csv',
    code: 'unit-unknown',
    line: 1,
    message: 'The log does not say its unit. Say which it is: --log-unit mg/dL or --log-unit mmol/L.',
    question: {
      asks: 'unit',
      text: 'The log does not say its unit.',
      choices: [
        { answer: 'mg/dL', label: 'mg/dL', example: 'values such as 104', effect: 'mean 104 mg/dL' },
        { answer: 'mmol/L', label: 'mmol/L', example: 'values such as 5.8', effect: '' },
      ],
    },
  }
  const REFUSED: RefusalView = {
    log: 'b.csv',
    code: 'empty-file',
    line: null,
    message: 'The file is empty. Export the readings again.',
    question: null,
  }

  function stopped(refusals: readonly RefusalView[], logs = [LOG]) {
    return (
      <StoppedScreen
        view={{ kind: 'stopped', refusals }}
        logs={logs}
        answers={{}}
        busy={false}
        onAnswer={nothing}
        onAskAgain={nothing}
        onRemove={nothing}
      />
    )
  }

  it('is asked with its choices, none of them chosen, and without the options of the command line', () => {
    expect(texts(stopped([ASKS]))).toEqual([
      'One thing to tell first',
      'a.csv',
      ', line 1',
      'The log does not say its unit.',
      ...['mg/dL', 'values such as 104 · mean 104 mg/dL'],
      ...['mmol/L', 'values such as 5.8'],
      'Logs',
      'a.csv',
      'Remove ',
      'a.csv',
    ])
    expect(renderToStaticMarkup(stopped([ASKS]))).not.toMatch(/checked|aria-pressed|--log-unit/)
  })

  it('is told with what to do where there is no question', () => {
    const read = texts(stopped([REFUSED]))
    expect(read.slice(0, 3)).toEqual(['Not opened', 'b.csv', REFUSED.message])
  })

  it('is all there together, and every log can be taken out', () => {
    const read = texts(stopped([ASKS, REFUSED, ASKS], [LOG, { ...LOG, name: 'b.csv' }]))
    expect(read[0]).toBe('Some things to tell first')
    expect(read).toContain(REFUSED.message)
    expect(read.filter((text) => text === 'Remove ')).toHaveLength(2)
    expect(read).toContain(
      'They open together once each of them can be read. One that cannot is taken out here.',
    )
  })
})

describe('the trust', () => {
  it('stands in its sentences', () => {
    const sentences = ['4 readings are doubtful (‘?’).', 'Repeat tests: 24 of 31 sets agree.']
    expect(texts(<Trust sentences={sentences} />)).toEqual([
      'How far the readings can be trusted',
      ...sentences,
    ])
  })
})

describe('what stands out', () => {
  it('stands in numbered sentences with what they rest on, and nowhere where none was looked for', () => {
    const findings = ['Lows gather between 15 and 18.', 'Weekends run higher.']
    const remark = 'None of these rests on a doubtful reading.'
    expect(texts(<StandsOut findings={{ findings, remark }} />)).toEqual([
      'What stands out',
      ...findings,
      remark,
    ])
    expect(texts(<StandsOut findings={{ findings: [], remark: null }} />)).toEqual([])
  })
})

describe('the logs', () => {
  const LOG = {
    name: 'meter.csv',
    guesses: 'Dates: year, month, day, from their form. Unit mg/dL, from the column’s header.',
    rows: '5 rows: 3 readings, 2 set aside (2 without a value).',
    notes: ['The meter’s clock jumps.'],
    setAside: [
      {
        heading: '102 rows without a value',
        rows: [
          { line: 4, reason: 'empty-value', detail: '', text: '2026-03-02,07:00,', mgDl: null },
          { line: 9, reason: 'empty-value', detail: '', text: '2026-03-03,07:00,', mgDl: null },
        ],
        unlisted: 100,
      },
    ],
  } as const

  it('stand with every guess, note and row that gave no reading', () => {
    const element = (
      <Logs logs={[LOG]} answers={{ unit: 'mg/dL' }} busy={false} onAskAgain={nothing} onRemove={nothing} />
    )
    expect(texts(element)).toEqual([
      'Logs',
      'meter.csv',
      ...['Remove ', 'meter.csv'],
      `${LOG.guesses} ${LOG.rows}`,
      'The meter’s clock jumps.',
      '102 rows without a value',
      ...['line 4', '2026-03-02,07:00,'],
      ...['line 9', '2026-03-03,07:00,'],
      'and 100 more',
      ...['Your answers: unit mg/dL', 'Ask again'],
    ])
  })

  it('have their guesses at the foot, with the name where there are several; the caution always', () => {
    const caution = 'For discussion with the care team. Not for dosing decisions.'
    expect(texts(<Foot logs={[]} />)).toEqual([caution])
    expect(texts(<Foot logs={[LOG]} />)).toEqual([LOG.guesses, caution])
    const both = [`meter.csv: ${LOG.guesses}`, `meter.csv: ${LOG.guesses}`]
    expect(texts(<Foot logs={[LOG, LOG]} />)).toEqual([...both, caution])
    expect(texts(<Foot logs={[LOG, LOG, LOG, LOG]} />)).toEqual([
      'How each of the 4 logs was read stands beside it.',
      caution,
    ])
  })
})

describe('answers given', () => {
  const given = (answers: React.ComponentProps<typeof AnswersGiven>['answers']) =>
    texts(<AnswersGiven answers={answers} busy={false} onAskAgain={nothing} />)

  it('are shown with the way to be asked again, in words', () => {
    expect(given({})).toEqual([])
    expect(given({ unit: 'mmol/L', dates: 'dmy', columns: 'glucose=3' })).toEqual([
      'Your answers: unit mmol/L; dates day first; columns glucose=3',
      'Ask again',
    ])
  })
})

describe('the bar', () => {
  const bar = (busy: React.ComponentProps<typeof Bar>['busy'], open: boolean) =>
    renderToStaticMarkup(
      <Bar
        busy={busy}
        done="Made pages.pdf."
        onAdd={open ? nothing : null}
        onMakePdf={open ? nothing : null}
      />,
    )

  it('offers nothing before a log was chosen', () => {
    expect(bar(null, false)).not.toContain('<button')
  })

  it('tells what was done, and meanwhile what is being done', () => {
    expect(bar(null, true)).toContain('<p class="status" role="status">Made pages.pdf.</p>')
    expect(bar('reading', true)).toContain('>Reading …</p>')
    expect(bar('making-pdf', true)).toContain('>Making the pages …</p>')
  })

  it('takes no second piece of work meanwhile, yet leaves the focus on its buttons', () => {
    expect(bar('making-pdf', true).match(/aria-disabled="true"/g)).toHaveLength(2)
    expect(bar('making-pdf', true)).not.toMatch(/ disabled/)
    expect(bar(null, true)).not.toContain('aria-disabled="true"')
  })
})

describe('the start', () => {
  it('tells that the readings stay on this computer', () => {
    expect(texts(<StartScreen busy={false} onChoose={nothing} />).join(' ')).toContain(
      'Readings stay on this computer.',
    )
  })
})

describe('the pages', () => {
  it('take a label as long as the program takes one, and each paper', () => {
    const markup = renderToStaticMarkup(<Pages paper="Letter" label="Room 4" change={nothing} />)
    expect(markup).toContain('maxLength="200"')
    expect(markup).toContain('value="Room 4"')
    expect(markup).toContain('<option>A4</option><option selected="">Letter</option>')
  })
})

describe('the picture', () => {
  it('is drawn for both themes, with its words below and a frame that keys can scroll', () => {
    const picture = {
      description: 'Readings by time of day.',
      light: '<svg id="l"></svg>',
      dark: '<svg id="d"></svg>',
    }
    const markup = renderToStaticMarkup(<Picture picture={picture} unit="mg/dL" />)
    expect(markup).toContain('<div class="svg svg-light"><svg id="l"></svg></div>')
    expect(markup).toContain('<div class="svg svg-dark"><svg id="d"></svg></div>')
    expect(markup).toContain('<p>Readings by time of day.</p>')
    expect(markup).toContain('tabindex="0"')
  })
})

describe('a number', () => {
  it('stays on one line with the unit behind it, and nothing else is glued', () => {
    expect(unbroken('next test 92 after 6 h 26 min')).toBe('next test 92 after 6\u00a0h 26\u00a0min')
    expect(unbroken('less than 15 %, ±15 mg/dL or 0.8 mmol/L')).toBe(
      'less than 15\u00a0%, ±15\u00a0mg/dL or 0.8\u00a0mmol/L',
    )
    expect(unbroken('on 1 day of 90 days, 4 here')).toBe('on 1\u00a0day of 90\u00a0days, 4 here')
  })
})
