import type { Paper } from '../reference/paper'
import type { Overview, OverviewRow } from '../told/overview'
import type { DayNumber } from '../units/wallClock'
import type { Words } from '../wording/words'
import { PRINT_PALETTE } from '../charts/palette'
import { PAGE_MARGINS } from './context'
import type { PageDocument } from './document'
import { greyParagraph, heading, paragraph, right, table, TYPE } from './parts'
import { oneLine, printableBlocks } from './printable'

export interface OverviewOptions {
  readonly paper: Paper
  readonly today: DayNumber
  readonly programVersion: string
}

const NAME_LENGTH = 60
const WHY_LENGTH = 600
const SMALL = { fontSize: TYPE.small } as const

/** The logs of a folder, a line each, in the order given; last what has no report, and why. */
export function overviewDocument(
  words: Words,
  rows: readonly OverviewRow[],
  { paper, today, programVersion }: OverviewOptions,
): PageDocument {
  const { overview: own, dates, head } = words
  const made = rows.flatMap(({ log, overview }) => (overview === null ? [] : [{ log, overview }]))
  const without = rows.filter(({ overview }) => overview === null)
  const { COLUMNS } = own
  return {
    title: own.OVERVIEW_TITLE,
    subject: own.OVERVIEW_TITLE,
    creator: `${head.TITLE} ${programVersion}`,
    language: words.windowFrame.LANGUAGE,
    paper,
    margins: PAGE_MARGINS,
    runningHead: { text: own.OVERVIEW_TITLE, color: PRINT_PALETTE.grey, margin: [PAGE_MARGINS[0], 17, 0, 0] },
    foot: {
      left: [head.purposeLine('finger-stick'), ''],
      right: `made ${dates.dayText(today, 'with-year')} · ${head.TITLE} ${programVersion}`,
    },
    content: printableBlocks([
      { text: own.OVERVIEW_TITLE, bold: true, fontSize: TYPE.title, outline: true, level: 1 },
      paragraph(head.SAFETY_LINE, { bold: true, fontSize: TYPE.person }),
      greyParagraph(own.OVERVIEW_NOTE, { fontSize: TYPE.body }),
      table(
        [
          { title: COLUMNS.log, width: '*' },
          { title: COLUMNS.episodes, ...right(38) },
          { title: COLUMNS.below54, ...right(18) },
          { title: COLUMNS.below70, ...right(18) },
          { title: COLUMNS.nights, ...right(44) },
          { title: COLUMNS.above250, ...right(30) },
          { title: COLUMNS.mean, ...right(46) },
          { title: COLUMNS.cv, ...right(22) },
          { title: COLUMNS.a1c, ...right(40) },
          { title: COLUMNS.doubtful, ...right(36) },
          { title: COLUMNS.days, ...right(44) },
          { title: COLUMNS.last, ...right(34) },
        ],
        made.map(({ log, overview }) => [
          [
            { text: oneLine(log, NAME_LENGTH), bold: true },
            overview.findings.length === 0
              ? ''
              : ` ${overview.findings.map((code) => own.FINDING_NAMES[code]).join(', ')}`,
          ],
          ...figures(words, overview, today),
        ]),
        { ...SMALL, layout: 'closeColumns' },
      ),
      ...(without.length === 0
        ? []
        : [
            heading(own.NOT_MADE_TITLE),
            table(
              [
                { title: COLUMNS.log, width: 150 },
                { title: COLUMNS.why, width: '*' },
              ],
              without.map(({ log, why }) => [oneLine(log, NAME_LENGTH), oneLine(why, WHY_LENGTH)]),
              SMALL,
            ),
          ]),
    ]),
  }
}

function figures(words: Words, overview: Overview, today: DayNumber): readonly string[] {
  const { unit, nights, n } = overview
  const { valueText, a1cValueText } = words.figures
  return [
    overview.episodes === null ? words.numbers.NO_NUMBER : String(overview.episodes),
    String(overview.readingsBelow54),
    String(overview.readingsBelow70),
    words.overview.nightsText(nights.withLows, nights.tested),
    valueText(overview.above250, unit),
    words.overview.meanText(overview.mean, unit),
    valueText(overview.cv, unit),
    a1cValueText(overview.a1c),
    n === 0 ? words.numbers.NO_NUMBER : words.numbers.percentText((100 * overview.doubtful) / n),
    words.overview.daysText(overview.daysWithReadings, overview.days),
    String(today - overview.lastDay),
  ]
}
