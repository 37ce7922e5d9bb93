import { type Paper, PAPERS } from '../reference/paper'
import type { GlucoseUnit } from '../units/glucose'
import type { DayNumber } from '../units/wallClock'
import { PAGE_MARGINS } from './context'
import { type Block, type Columns, type PageDocument, type Paragraph } from './document'
import { firstLine, runningHead } from './head'
import {
  greyParagraph,
  heading,
  onNewPage,
  paragraph,
  ruleAcross,
  sectionHeading,
  table,
  TYPE,
} from './parts'
import type { Words } from '../wording/words'

/** Read by someone standing at a kitchen table. */
const READ_AT = TYPE.body + 1.6
const TRIAL_DAYS = 3
/** Room to write in, points. */
const WRITING_ROOM = { trial: 20, day: 20, remarks: 10 } as const
const BLANK = { text: '\u00A0', fontSize: WRITING_ROOM.trial } as const

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
    runningHead: runningHead(words),
    foot: {
      left: [words.handout.HANDOUT_PURPOSE, ''],
      right: `made ${words.dates.dayText(madeAt, 'with-year')} · ${words.head.TITLE} ${programVersion}`,
    },
    content: [...technique(words, unit, width), ...onNewPage(trial(words, unit, width))],
  }
}

function technique(words: Words, unit: GlucoseUnit, width: number): readonly Block[] {
  return [
    firstLine(words, words.handout.HANDOUT_TITLE),
    paragraph(words.head.SAFETY_LINE, { bold: true }),
    ...words.handout
      .techniqueSteps(unit)
      .flatMap(({ title, steps }): readonly Block[] => [
        ...sectionHeading(title, width),
        ...steps.map(ticked),
      ]),
    ...sectionHeading(words.handout.GONE_THROUGH, width),
    ...[words.handout.MY_LOWS, words.handout.MY_HIGHS].map((line) =>
      paragraph(line, { fontSize: READ_AT, margin: [0, 8, 0, 8] }),
    ),
  ]
}

function ticked(step: string): Columns {
  return {
    columns: [
      { text: '□', fontSize: READ_AT + 3, width: 14, lineHeight: 0.8 },
      { text: step, fontSize: READ_AT, width: '*' },
    ],
    columnGap: 4,
    margin: [0, 2, 0, 4],
  }
}

function trial(words: Words, unit: GlucoseUnit, width: number): readonly Block[] {
  return [
    heading(words.handout.TRIAL_TITLE),
    ...words.handout.TRIAL_STEPS.map((step, i) =>
      paragraph(`${i + 1}. ${step}`, { fontSize: READ_AT - 0.6 }),
    ),
    table(
      words.handout.TRIAL_COLUMNS.map((title) => ({ title, width: '*' as const })),
      Array.from({ length: TRIAL_DAYS }, () => words.handout.TRIAL_COLUMNS.map(() => [BLANK])),
      { margin: [0, 6, 0, 6] },
    ),
    ...sectionHeading(`${words.handout.BLANK_SHEET_TITLE}, ${unit}`, width),
    greyParagraph(words.handout.BLANK_SHEET_HOW),
    ...Array.from({ length: TRIAL_DAYS }, (_, day) => blankDay(words, day + 1, width)).flat(),
  ]
}

function blankDay(words: Words, day: number, width: number): readonly Block[] {
  const cellOf = (title: string): Paragraph => ({ text: title, fontSize: TYPE.small, width: '*' })
  return [
    paragraph(`Day ${day}: ______________`, { bold: true, margin: [0, 10, 0, 2] }),
    {
      columns: words.handout.BLANK_SHEET_COLUMNS.map(cellOf),
      columnGap: 6,
      margin: [0, 0, 0, WRITING_ROOM.day],
    },
    { columns: words.handout.BLANK_SHEET_COLUMNS.map(() => cellOf(words.handout.VALUE_LINE)), columnGap: 6 },
    { columns: words.handout.BLANK_SHEET_COLUMNS.map(() => cellOf(words.handout.WASHED_TICK)), columnGap: 6 },
    greyParagraph(words.handout.BLANK_REMARKS, { margin: [0, 5, 0, WRITING_ROOM.remarks] }),
    ruleAcross(width, [0, 0, 0, 0]),
  ]
}
