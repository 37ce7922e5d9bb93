import { goalsTold } from '../told/goals'
import { TOLD_LIMITS } from '../told/limits'
import { columnsTold, rowsTold, shortHash } from '../told/logs'
import { cautionsTold, definitionsTold } from '../told/method'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { howWellKnown } from './howWellKnown'
import { heading, heads, paragraph, table, TYPE } from './parts'
import { oneLine } from './printable'
import { nextMonth } from './theWeek'

const SMALL = { fontSize: TYPE.small + 0.4 }
const NOTE_LENGTH = 300
const MOST_NOTES = 12

/** How the pages came about: the logs, what they cannot tell and, asked for, every definition with its source. */
export function method(context: ReportContext): readonly Block[] {
  const { words } = context
  return [
    heading(words.pages.TITLES.method),
    ...logs(context),
    ...(context.options.wholeMethod
      ? [...howWellKnown(context), heading(words.pages.TITLES.definitions), definitionsTable(context)]
      : [paragraph(words.pages.WHERE_METHOD_STANDS, SMALL)]),
    ...keptTogether(
      [
        heading(words.pages.TITLES.cautions),
        ...cautionsTold(context.figures.kind).map((code) => paragraph(words.method.CAUTIONS[code], SMALL)),
      ],
      context.width,
    ),
    ...nextMonth(context),
  ]
}

function definitionsTable(context: ReportContext): Block {
  const { words } = context
  const { settings } = context.analysis
  const { kind } = context.figures
  return table(
    heads(words.pages.COLUMNS.definitions, [80, '*', 140]),
    [
      ...words.method.definitions(definitionsTold(kind), TOLD_LIMITS, settings, goalsTold(settings), kind),
      ...(context.analysis.comparison === null ? [] : words.comparison.comparisonDefinitions(TOLD_LIMITS)),
    ].map(({ figure, how, source }) => [figure, how, source]),
    SMALL,
  )
}

function logs(context: ReportContext): readonly Block[] {
  const { words } = context
  const { sources, duplicatesAcrossLogs } = context.analysis
  return [
    heading(words.pages.TITLES.logs),
    ...sources.flatMap((source, i): Block[] => {
      const notes = source.notes
        .slice(0, MOST_NOTES)
        .map((note) => oneLine(words.importMessages.noteText(note, 'window'), NOTE_LENGTH))
      const more = source.notes.length - notes.length
      return [
        {
          text: [
            {
              text: `${words.logs.logName(i)} (${shortHash(source.sha256)}): `,
              bold: true,
            },
            `${words.logs.rowsText(rowsTold(source))} ${words.logs.unitDecisionText(source.unit)} ${words.logs.dateDecisionText(source.dateOrder)} ${words.logs.columnsText(columnsTold(source))}`,
          ],
          ...SMALL,
          margin: [0, 0, 0, 2],
        },
        ...notes.map((note) => paragraph(`– ${note}`, { ...SMALL, margin: [8, 0, 0, 2] })),
        ...(more > 0
          ? [
              paragraph(words.pages.furtherNotesText(more), {
                ...SMALL,
                margin: [8, 0, 0, 2],
              }),
            ]
          : []),
      ]
    }),
    paragraph(metersText(context), SMALL),
    ...(duplicatesAcrossLogs > 0 ? [paragraph(words.pages.duplicatesText(duplicatesAcrossLogs), SMALL)] : []),
  ]
}

/** The meters with their readings and the logs that hold these. */
function metersText(context: ReportContext): string {
  const { words } = context
  const { readings, sources } = context.analysis
  const counts = context.meterNames.map(() => 0)
  const logsOf = context.meterNames.map(() => new Set<number>())
  for (let i = 0; i < readings.n; i++) {
    counts[readings.meter[i]]++
    logsOf[readings.meter[i]].add(readings.source[i])
  }
  const log = (source: number) => `${words.logs.logName(source)}, ${shortHash(sources[source].sha256)}`
  return words.pages.metersText(
    context.meterNames.map((name, meter) => ({
      name,
      n: counts[meter],
      logs: [...logsOf[meter]].sort((a, b) => a - b).map(log),
    })),
  )
}
