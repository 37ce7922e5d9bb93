import { PRINT_PALETTE } from '../charts/palette'
import { techniqueDrawing } from '../charts/techniqueDrawings'
import { type Paper, PAPERS } from '../reference/paper'
import type { GlucoseUnit } from '../units/glucose'
import type { DayNumber } from '../units/wallClock'
import { PAGE_MARGINS } from './context'
import type { Block, Columns, Inline, PageDocument, Paragraph, Table } from './document'
import { firstLine, runningHead } from './head'
import { FONT_HEIGHT, heightOf } from './height'
import { heading, onNewPage, paragraph, picture, sectionHeading, table } from './parts'
import type { Words } from '../wording/words'

/** Sizes of type, points: for weak eyes, read at a kitchen table; heads of boxes are read once. */
const READ_AT = { title: 14, step: 12, box: 10 } as const
const TRIAL_DAYS = 3
/** Lowest box to write in with a hand that shakes: 9 mm, in points. */
const LOWEST_BOX = (9 / 25.4) * 72
const GAP = 10

export interface HandoutOptions {
  readonly paper: Paper
  readonly unit: GlucoseUnit
  readonly madeAt: DayNumber
  readonly programVersion: string
}

/** Two sheets to hand out, without any reading: technique to tick with the nurse; a fair trial with a blank sheet. */
export function handout(words: Words, { paper, unit, madeAt, programVersion }: HandoutOptions): PageDocument {
  const width = PAPERS[paper].width - PAGE_MARGINS[0] - PAGE_MARGINS[2]
  return {
    title: words.handout.HANDOUT_TITLE,
    subject: words.handout.HANDOUT_PURPOSE,
    creator: `${words.head.TITLE} ${programVersion}`,
    language: words.windowFrame.LANGUAGE,
    paper,
    margins: PAGE_MARGINS,
    runningHead: runningHead(words, null),
    foot: {
      left: [words.handout.HANDOUT_PURPOSE, ''],
      right: `made ${words.dates.dayText(madeAt, 'with-year')} · ${words.head.TITLE} ${programVersion}`,
    },
    content: [...technique(words, unit, width), ...onNewPage(trial(words, unit, paper, width))],
  }
}

function technique(words: Words, unit: GlucoseUnit, width: number): readonly Block[] {
  const { handout } = words
  return [
    firstLine(words, handout.HANDOUT_TITLE, null),
    paragraph(words.head.SAFETY_LINE, { bold: true, fontSize: READ_AT.step }),
    ...handout.techniqueParts(unit).flatMap(({ title, drawn, others, plans = [] }): readonly Block[] => {
      const cells = drawn.map(([drawing, step]): Block => {
        const scene = techniqueDrawing(words, drawing)
        return { stack: [picture(scene), ticked(step)], width: (width - 2 * GAP) / 3 }
      })
      const rest = [...others.map(ticked), ...plans.map(toFillIn)]
      return [
        ...part(title, width),
        // One drawing leaves room beside it.
        ...(cells.length === 1
          ? [{ columns: [...cells, { stack: rest, width: '*' as const }], columnGap: GAP }]
          : [{ columns: cells, columnGap: GAP }, ...rest]),
      ]
    }),
    toFillIn(handout.GONE_THROUGH),
  ]
}

function toFillIn(line: string): Paragraph {
  return paragraph(line, { fontSize: READ_AT.step, margin: [0, 6, 0, 0] })
}

/** A rule and a heading in large type. */
function part(title: string, width: number): readonly Block[] {
  const [rule, head] = sectionHeading(title, width)
  return [rule, { ...head, fontSize: READ_AT.title }]
}

function ticked(step: string): Columns {
  return {
    columns: [
      { text: '□', fontSize: READ_AT.step + 3, width: 14, lineHeight: 0.8 },
      { text: step, fontSize: READ_AT.step, width: '*' },
    ],
    columnGap: 4,
    isListItem: true,
    margin: [0, 1, 0, 2],
  }
}

/** The trial, the testing sheet and the glossary: the boxes take the room that is left of the page. */
function trial(words: Words, unit: GlucoseUnit, paper: Paper, width: number): readonly Block[] {
  const page = (box: number) => trialPage(words, unit, width, box)
  const room = PAPERS[paper].height - PAGE_MARGINS[1] - PAGE_MARGINS[3] - heightOf(page(LOWEST_BOX), width)
  return page(LOWEST_BOX + Math.max(0, room) / (2 * TRIAL_DAYS))
}

function trialPage(words: Words, unit: GlucoseUnit, width: number, box: number): readonly Block[] {
  const { handout } = words
  const days = Array.from({ length: TRIAL_DAYS }, (_, i) => i + 1)
  const blank: readonly Inline[] = [{ text: '\u00A0', fontSize: box / FONT_HEIGHT }]
  const style = { fontSize: READ_AT.box, color: PRINT_PALETTE.ink, margin: [0, 2, 0, 4] } as const
  return [
    { ...heading(handout.TRIAL_TITLE), fontSize: READ_AT.title },
    ...handout.TRIAL_STEPS.map((step, i) =>
      paragraph(`${i + 1}. ${step}`, { fontSize: READ_AT.step, margin: [0, 0, 0, 1] }),
    ),
    boxes(
      handout.TRIAL_COLUMNS.map((title) => ({ title, width: '*' })),
      days.map(() => handout.TRIAL_COLUMNS.map(() => blank)),
      style,
    ),
    ...part(`${handout.BLANK_SHEET_TITLE}, ${unit}`, width),
    paragraph(handout.BLANK_SHEET_HOW, { fontSize: READ_AT.step }),
    boxes(
      [
        { title: handout.DAY_AND_DATE, width: 42 },
        ...handout.BLANK_SHEET_COLUMNS.map((title) => ({ title, width: 45 })),
        { title: handout.BLANK_REMARKS, width: '*' },
      ],
      days.flatMap((day) => [
        [handout.dayOfSheet(day), ...handout.BLANK_SHEET_COLUMNS.map(() => blank), blank],
        ['', ...handout.BLANK_SHEET_COLUMNS.map(() => handout.WASHED_TICK), ''],
      ]),
      style,
    ),
    ...part(handout.GLOSSARY_TITLE, width),
    glossary(words, unit),
  ]
}

/** A table whose cells are boxes. */
function boxes(...given: Parameters<typeof table>): Table {
  return { ...table(...given), layout: 'boxes' }
}

function glossary(words: Words, unit: GlucoseUnit): Columns {
  const terms = words.handout
    .glossary(unit)
    .map(({ term, means }) =>
      paragraph([{ strong: `${term}: ` }, means], { fontSize: READ_AT.step, margin: [0, 0, 0, 1] }),
    )
  // The first ones are short.
  const half = Math.ceil(terms.length * 0.6)
  return {
    columns: [terms.slice(0, half), terms.slice(half)].map((stack) => ({ stack, width: '*' })),
    columnGap: GAP,
  }
}
