import { describe, expect, it } from 'vitest'
import type { Bridge } from '../../src-core/bridge/contract'
import type { FileView } from '../../src-core/bridge/fileView'
import type { LowsView } from '../../src-core/bridge/lowsView'
import type { ReadingView } from '../../src-core/bridge/readingView'
import type { RefusalView } from '../../src-core/bridge/stoppedView'
import type { VisitState } from '../../src-core/bridge/visitState'
import { AskedOfLog, withAnswer } from '../../src-renderer/parts/AskedOfLog'
import { Bar } from '../../src-renderer/parts/Bar'
import { EffectTable } from '../../src-renderer/parts/EffectTable'
import { FileSection } from '../../src-renderer/parts/FileSection'
import { Figures } from '../../src-renderer/parts/Figures'
import { Foot } from '../../src-renderer/parts/Foot'
import { Lows, LowsHeadline } from '../../src-renderer/parts/Lows'
import { OutsideDays } from '../../src-renderer/parts/OutsideDays'
import { Picture } from '../../src-renderer/parts/Picture'
import { ReadingDetail } from '../../src-renderer/parts/ReadingDetail'
import { StandsOut } from '../../src-renderer/parts/StandsOut'
import { Trust } from '../../src-renderer/parts/Trust'
import { LogsScreen } from '../../src-renderer/screens/LogsScreen'
import { StartScreen } from '../../src-renderer/screens/StartScreen'
import type { VisitHold } from '../../src-renderer/useVisit'
import { markupOf } from '../helpers/markup'

const nothing = () => undefined
const BRIDGE = {} as Bridge

/** A visit in hand with which nothing is done. */
const VISIT: VisitHold = {
  state: null,
  busy: '',
  problems: [],
  notices: [],
  fault: '',
  done: '',
  add: nothing,
  addSample: nothing,
  edit: () => Promise.resolve(true),
  undo: nothing,
  redo: nothing,
  progress: null,
  cancel: nothing,
  refresh: nothing,
  now: () => null,
  run: () => Promise.resolve(true),
  show: nothing,
  tell: nothing,
}

/** What is read of a piece of the window: its texts, each tag as a break, unbreakable spaces as spaces. */
function texts(element: React.ReactElement): readonly string[] {
  return markupOf(element)
    .replaceAll('\u00a0', ' ')
    .split(/<[^>]*>/)
    .filter((text) => text.trim() !== '')
}

function low(values: string, doubtful = false, bracketed = false, confirmed: string | null = null) {
  return {
    moment: '31 March, 22:15',
    values,
    doubtful,
    bracketed,
    confirmed,
    after: 'next test 109 after 40 min',
  }
}

/** The lows as the window shows them: the headline first, then one by one. */
function AllLows({ lows }: { readonly lows: LowsView }) {
  return (
    <>
      <LowsHeadline lows={lows} unit="mg/dL" />
      <Lows lows={lows} onOpen={nothing} />
    </>
  )
}

describe('the lows', () => {
  const LOWS = {
    headline: '2 readings below 70, on 1 day; none below 54.',
    lowest: [low('67'), low('52 → 90')],
    lowestTold: null,
    others: [],
    unlisted: 0,
    highs: null,
    remarks: ['Night (00–06) was tested on 9 of 90 nights. Lows there would not show.'],
  }

  it('stand with moment, values and what the next test read, then with what the list cannot show', () => {
    expect(texts(<AllLows lows={LOWS} />)).toEqual([
      'Lows ',
      'in mg/dL',
      LOWS.headline,
      '31 March, 22:15',
      '67',
      'next test 109 after 40 min',
      '31 March, 22:15',
      '52 → 90',
      'next test 109 after 40 min',
      'Look at their readings',
      ...LOWS.remarks,
    ])
  })

  it('stay listed and marked where they are doubtful, never struck through', () => {
    const markup = markupOf(<AllLows lows={{ ...LOWS, lowest: [low('67?', true), low('58')] }} />)
    expect(markup.match(/<li/g)).toHaveLength(2)
    expect(markup.match(/class="square"/g)).toHaveLength(2)
    expect(markup.match(/67\?<span class="unseen"> \(doubtful, still counted\)<\/span>/g)).toHaveLength(1)
    expect(markup).not.toMatch(/<(s|del|strike)\b|line-through/)
  })

  it('say so beside the value where it was low either way', () => {
    const lows = { ...LOWS, lowest: [low('LO? → 56', true, false, 'low either way')] }
    expect(texts(<AllLows lows={lows} />)).toContain('low either way')
  })

  it('within a stretch that is told once have a bracket and no mark, and are said to count', () => {
    const within = low('58', false, true)
    const markup = markupOf(<AllLows lows={{ ...LOWS, lowest: [low('67'), within] }} />)
    expect(markup.match(/<li class="low bracketed">/g)).toHaveLength(1)
    expect(markup).toContain('58<span class="unseen"> (on days in doubt, still counted)</span>')
  })

  it('are all there, the lowest at once and the others behind', () => {
    const items = Array.from({ length: 11 }, (_, i) => low(String(50 + i)))
    const lowestTold = 'The eight lowest, in order of time:'
    const many = { ...LOWS, lowest: items.slice(0, 8), lowestTold, others: items.slice(8) }
    const markup = markupOf(<AllLows lows={many} />)
    const [atOnce, behind] = markup.split('<details>')
    expect(atOnce.match(/<li/g)).toHaveLength(8)
    expect(behind.match(/<li/g)).toHaveLength(3)
    expect(behind).toContain('<summary>3 more</summary>')
    for (const { values } of items) expect(markup).toContain(`</span>${values}</b>`)
    expect(texts(<AllLows lows={{ ...many, unlisted: 500 }} />)).toEqual(
      expect.arrayContaining([lowestTold, '503 more', 'and 500 more in the list of their readings']),
    )
    expect(markupOf(<AllLows lows={{ ...many, others: [] }} />)).not.toContain('more')
  })

  it('are followed by the readings above the meter’s range, with what to do', () => {
    const highs = {
      headline: '2 readings HI, above the meter’s range.',
      latestTold: null,
      latest: ['1 March, 07:10'],
    }
    const told = texts(<AllLows lows={{ ...LOWS, highs }} />)
    const at = told.indexOf(highs.headline)
    expect(told.slice(at, at + 3)).toEqual([highs.headline, '1 March, 07:10', 'HI'])
    expect(at).toBeGreaterThan(told.indexOf('67'))
  })

  it('that are none are said to be none, without an empty list', () => {
    const none = {
      headline: 'No low was recorded. That does not show that there were none.',
      lowest: [],
      lowestTold: null,
      others: [],
      unlisted: 0,
      highs: null,
      remarks: [],
    }
    const element = <AllLows lows={none} />
    expect(texts(element)).toEqual(['Lows ', none.headline])
    expect(markupOf(element)).not.toContain('<ol')
  })
})

describe('the figures', () => {
  const FIGURES = {
    rows: [
      { name: 'Readings below 70', unit: '', asLogged: '3', checked: '3' },
      { name: 'Mean', unit: 'mg/dL', asLogged: '144', checked: '141' },
    ],
    showsChecked: true,
    checkedTitle: 'Doubtful left out',
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
    const markup = markupOf(<Figures figures={FIGURES} />)
    expect(markup.match(/<th scope="row">/g)).toHaveLength(2)
    expect(markup.match(/<th scope="col">/g)).toHaveLength(3)
  })
})

describe('what a log leaves open', () => {
  const ASKS: RefusalView = {
    log: 'a.csv',
    sha256: 'a'.repeat(64),
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
  const asked = <AskedOfLog refusal={ASKS} answers={{}} busy={false} onAnswer={nothing} />

  it('is asked with its choices, none of them chosen, and without the options of the command line', () => {
    expect(texts(asked)).toEqual([
      'The log does not say its unit.',
      ' (line 1)',
      ...['mg/dL', 'values such as 104 · mean 104 mg/dL'],
      ...['mmol/L', 'values such as 5.8'],
    ])
    expect(markupOf(asked)).not.toMatch(/checked|aria-pressed|--log-unit/)
  })

  it('is answered beside what was answered before; a further column joins those named', () => {
    expect(withAnswer({ dates: 'dmy' }, 'unit', 'mmol/L')).toEqual({ dates: 'dmy', unit: 'mmol/L' })
    expect(withAnswer({ columns: 'date=1' }, 'columns', 'glucose=3')).toEqual({ columns: 'date=1,glucose=3' })
    expect(withAnswer({}, 'columns', 'glucose=3')).toEqual({ columns: 'glucose=3' })
  })
})

describe('the decision on a reading', () => {
  const LOW: ReadingView = {
    kind: 'reading',
    index: 4,
    key: { at: '2026-03-02T07:00', value: '62', unit: 'mg/dL', meter: 'meter A', log: 'a'.repeat(64) },
    value: '62',
    unit: 'mg/dL',
    moment: '2 March at 07:00',
    details: ['before breakfast', 'meter A', 'line 5 of log 1'],
    low: true,
    typed: false,
    doubt: null,
    anothers: null,
    around: { titles: ['when', 'reading', 'marks'], rows: [['2 March, 07:00', '62', 'low']] },
    picture: { description: 'One reading.', svg: '<svg></svg>' },
    decision: null,
    leaveOutLabel: 'Leave out of averages (stays among the lows)',
    leavingOut: 'The large figures stay as logged.',
    effect: [
      { name: 'Readings below 70', before: '3', after: '3' },
      { name: 'Mean, mg/dL', before: '144.0', after: '144.6' },
    ],
  }
  const shown = (view: ReadingView) =>
    markupOf(
      <ReadingDetail
        view={view}
        visit={VISIT}
        onNext={nothing}
        onDecided={nothing}
        gone={0}
        nextName="Next"
        told=""
      />,
    )

  it('offers to keep and to leave out alike, neither chosen, and says that a low stays', () => {
    const markup = shown(LOW)
    const buttons = [...markup.matchAll(/<button([^>]*)>(Keep|Leave out[^<]*)</g)]
    expect(buttons.map(([, , name]) => name)).toEqual([
      'Keep',
      'Leave out of averages (stays among the lows)',
    ])
    expect(new Set(buttons.map(([, attributes]) => attributes)).size).toBe(1)
    expect(markup).not.toMatch(/aria-pressed="true"|<(s|del|strike)\b|line-through/)
  })

  it('asks whose reading it is where the note names somebody else, and chooses nothing beforehand', () => {
    const anothers = {
      headline: 'Whose reading is it?',
      why: 'Its note says that it may be somebody else’s.',
    }
    const markup = shown({ ...LOW, anothers })
    for (const text of [anothers.headline, anothers.why]) expect(markup).toContain(text)
    expect(markup).not.toContain('does not mark this reading')
    const buttons = [...markup.matchAll(/<button([^>]*)>(Keep|Leave out[^<]*)</g)]
    expect(new Set(buttons.map(([, attributes]) => attributes)).size).toBe(1)
    expect(markup).not.toContain('aria-pressed="true"')
  })

  it('shows what was decided and why, with the way to take it back', () => {
    const decision = {
      choice: 'leave-out',
      text: 'Left out of averages',
      why: 'juice',
      reason: 'juice',
    } as const
    const markup = shown({ ...LOW, decision })
    expect(markup).toMatch(/aria-pressed="true"[^>]*>Leave out/)
    expect(markup).toContain('Left out of averages: juice.')
    expect(markup).toContain('>Take back<')
  })

  it('stands beside what it does to each figure, the lows unchanged', () => {
    expect(texts(<EffectTable effect={LOW.effect} />).join(' ')).toContain(
      'Readings below 70 3 → 3 Mean, mg/dL 144.0 → 144.6',
    )
    expect(texts(<EffectTable effect={[]} />)).toEqual([
      'Outside the days of this report: it is in none of the figures.',
    ])
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
    const findings = [
      { text: 'Lows cluster between 15:00 and 18:00.', ask: 'Ask: what went before?' },
      { text: 'Weekends run higher.', ask: 'Ask: what is different?' },
    ]
    const remark = 'None of these rests on a doubtful reading.'
    expect(texts(<StandsOut findings={{ findings, remark }} />)).toEqual([
      'What stands out',
      ...findings.flatMap(({ text, ask }) => [`${text} `, ask]),
      remark,
    ])
    expect(texts(<StandsOut findings={{ findings: [], remark: null }} />)).toEqual([])
  })
})

describe('the logs', () => {
  const LOG = {
    name: 'meter.csv',
    sha256: 'b'.repeat(64),
    guesses: 'Dates: year, month, day, from their form. Unit mg/dL, from the column’s header.',
    how: {
      dates: 'Dates: year, month, day, from their form.',
      unit: 'Unit mg/dL, from the column’s header.',
      columns: 'Glucose from ‘mg/dL’.',
      roles: [{ role: 'date', label: 'date (now ‘When’)' }],
      suggested: null,
    },
    rows: '5 rows: 3 readings, 2 set aside (2 without a value).',
    outside: 0,
    notes: ['The meter’s clock jumps.'],
    setAside: [
      {
        heading: '102 rows without a value',
        rows: [
          { line: 4, reason: 'empty-value', detail: '', text: '2026-03-02,07:00,' },
          { line: 9, reason: 'empty-value', detail: '', text: '2026-03-03,07:00,' },
        ],
        unlisted: 100,
      },
    ],
  } as const

  it('stand with every guess, note and row that gave no reading, and what was answered', () => {
    const opened = {
      kind: 'opened',
      period: '2–3 March',
      extent: '3 readings',
      logs: [LOG],
      counts: { doubtful: 2, others: 0, open: 2 },
      outside: null,
      sinceLast: null,
    }
    const answers = { unit: 'mg/dL', dates: 'dmy' }
    const answered = 'unit mg/dL; dates day first'
    const logs = [{ name: 'meter.csv', sha256: LOG.sha256, answers, answered, moves: [] }]
    const state = { revision: 1, visit: { logs }, report: opened } as unknown as VisitState
    expect(
      texts(<LogsScreen bridge={BRIDGE} state={state} visit={VISIT} onAdd={nothing} onStep={nothing} />),
    ).toEqual([
      ...['2–3 March', 'Add logs', '3 readings. You can drop more logs anywhere in this window.'],
      'meter.csv',
      ...['Remove ', 'meter.csv'],
      ...[LOG.how.dates, 'Change ', 'the dates of meter.csv'],
      ...[LOG.how.unit, 'Change ', 'the unit of meter.csv'],
      ...[LOG.how.columns, 'Change ', 'the columns of meter.csv'],
      ...['Times: as the meter’s clock had them.', 'Change ', 'the clock of meter.csv'],
      LOG.rows,
      'The meter’s clock jumps.',
      '102 rows without a value',
      ...['line 4', '2026-03-02,07:00,'],
      ...['line 9', '2026-03-03,07:00,'],
      'and 100 more',
      ...['Your answers: unit mg/dL; dates day first ', 'Take back ', 'what was answered about meter.csv'],
      ...['Look at 2 doubtful readings', 'See the picture'],
    ])
  })

  it('say what lies outside the days chosen, with the ways to see it', () => {
    const span = { from: 1, to: 2 }
    expect(
      texts(
        <OutsideDays
          opened={{ outside: '116 readings lie outside.', sinceLast: { period: span, versus: span } }}
          visit={VISIT}
        />,
      ),
    ).toEqual(['116 readings lie outside.', 'Show all days', 'Since the last visit, compared with before'])
    expect(texts(<OutsideDays opened={{ outside: null, sinceLast: null }} visit={VISIT} />)).toEqual([])
  })

  it('have their guesses at the foot, with the name where there are several; the caution always', () => {
    const caution = ['For discussion with the care team. ', 'Not for dosing decisions.']
    expect(texts(<Foot logs={[]} status="" />)).toEqual(caution)
    const how = 'How the logs were read'
    expect(texts(<Foot logs={[LOG]} status="Read." />)).toEqual(['Read.', how, LOG.guesses, ...caution])
    const both = [`meter.csv: ${LOG.guesses}`, `meter.csv: ${LOG.guesses}`]
    expect(texts(<Foot logs={[LOG, LOG]} status="" />)).toEqual([how, ...both, ...caution])
    expect(texts(<Foot logs={[LOG, LOG, LOG, LOG]} status="" />)).toEqual([
      how,
      'How each of the 4 logs was read is shown beside it.',
      ...caution,
    ])
  })
})

describe('the bar', () => {
  const bar = (visit: VisitHold, onMakePdf: (() => void) | null) =>
    markupOf(<Bar visit={visit} step="readings" onStep={nothing} onSave={nothing} onMakePdf={onMakePdf} />)
  const stateWith = (undo: string | null) =>
    ({
      revision: 1,
      visit: { logs: [{}, {}], undo, redo: null },
      report: { kind: 'opened', counts: { readings: 440, doubtful: 4, others: 0, open: 4 } },
      file: { name: null, edited: true },
    }) as unknown as VisitState

  it('offers nothing before a log was chosen', () => {
    expect(bar(VISIT, null)).not.toContain('<button')
  })

  it('names the visit and the four steps with what they hold, the one in hand marked', () => {
    const markup = bar({ ...VISIT, state: stateWith(null) }, nothing)
    const steps = [...markup.matchAll(/class="step"[^>]*>(.*?)<\/button>/g)].map(([, text]) =>
      text.replace(/<[^>]*>/g, ''),
    )
    expect(steps).toEqual(['Visit edited', 'Logs 2', 'Readings 440 · 4 doubtful', 'Picture ', 'Pages '])
    expect(markup.match(/aria-current="step"/g)).toHaveLength(1)
  })

  it('says what would be undone, and leaves the focus on what cannot be pressed now', () => {
    const markup = bar({ ...VISIT, state: stateWith('keeping 288') }, nothing)
    expect(markup).toContain('>Undo<span class="unseen"> keeping 288</span>')
    expect(markup).toMatch(/aria-disabled="true"[^>]*>Redo</)
    expect(markup).not.toMatch(/ disabled/)
  })
})

describe('the file of the visit', () => {
  const FILE: FileView = {
    name: null,
    folder: null,
    isProtected: false,
    protectionChanged: false,
    edited: false,
    hasDialogs: false,
    cautions: [],
    asked: null,
  }
  const read = (file: Partial<FileView>) =>
    texts(
      <FileSection
        bridge={{} as Bridge}
        visit={VISIT}
        file={{ ...FILE, ...file }}
        ask={nothing}
        onOpen={nothing}
      />,
    )

  it('is told as it is: empty, not saved yet, saved', () => {
    expect(read({}).slice(0, 2)).toEqual(['An empty visit', 'There is nothing to save yet.'])
    expect(read({ edited: true })[0]).toBe('Not saved to a file yet')
    expect(read({ name: 'a.visit', isProtected: true }).slice(0, 2)).toEqual([
      'a.visit',
      'everything is saved · protected',
    ])
  })

  it('is protected from the next save on only until it is saved', () => {
    const told = (file: Partial<FileView>) => read({ name: 'a.visit', ...file }).join(' ')
    expect(told({ isProtected: true, protectionChanged: true })).toContain(', from the next save on')
    expect(told({ isProtected: true })).not.toContain('next save')
    expect(told({ protectionChanged: true })).toContain('can read this visit, from the next save on')
  })
})

describe('the start', () => {
  it('tells that the readings stay on this computer, and offers a sample', () => {
    const read = texts(
      <StartScreen
        bridge={{} as Bridge}
        busy={false}
        done=""
        ask={nothing}
        onChoose={nothing}
        onSample={nothing}
        onOpen={nothing}
        onType={nothing}
      />,
    ).join(' ')
    expect(read).toContain('Readings stay on this computer.')
    expect(read).toContain('Try it with a sample')
  })
})

describe('the picture', () => {
  it('is drawn with its words below and a frame that keys can scroll', () => {
    const picture = {
      description: 'Readings by time of day.',
      svg: '<svg id="d"></svg>',
    }
    const markup = markupOf(<Picture picture={picture} name="The day" />)
    expect(markup).toContain('<div class="svg"><svg id="d"></svg></div>')
    expect(markup).toContain('<p>Readings by time of day.</p>')
    expect(markup).toContain('tabindex="0"')
  })
})
