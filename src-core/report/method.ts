import { goalsTold } from '../told/goals'
import { TOLD_LIMITS } from '../told/limits'
import { columnsTold, rowsTold, shortHash } from '../told/logs'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { howWellKnown } from './howWellKnown'
import { heading, paragraph, table, TYPE } from './parts'
import { oneLine } from './printable'
import { nextMonth } from './theWeek'

const SMALL = { fontSize: TYPE.small + 0.4 }
const NOTE_LENGTH = 300
const MOST_NOTES = 12

/** How the pages came about: the logs, definitions with their sources, cautions. */
export function method(context: ReportContext): readonly Block[] {
  return [
    heading(context.words.pages.TITLES.method),
    ...logs(context),
    ...howWellKnown(context),
    heading(context.words.pages.TITLES.definitions),
    definitionsTable(context),
    ...keptTogether(
      [
        heading(context.words.pages.TITLES.cautions),
        ...context.words.method.cautions(context.figures.kind).map((caution) => paragraph(caution, SMALL)),
      ],
      context.width,
    ),
    ...nextMonth(context),
  ]
}

function definitionsTable(context: ReportContext): Block {
  const { settings } = context.analysis
  return table(
    [
      { title: context.words.pages.COLUMNS.definitions[0], width: 80 },
      { title: context.words.pages.COLUMNS.definitions[1], width: '*' },
      { title: context.words.pages.COLUMNS.definitions[2], width: 140 },
    ],
    [
      ...context.words.method.definitions(TOLD_LIMITS, settings, goalsTold(settings), context.figures.kind),
      ...(context.analysis.comparison === null
        ? []
        : context.words.comparison.comparisonDefinitions(TOLD_LIMITS)),
    ].map(({ figure, how, source }) => [figure, how, source]),
    SMALL,
  )
}

function logs(context: ReportContext): readonly Block[] {
  const { sources, duplicatesAcrossLogs } = context.analysis
  return [
    heading(context.words.pages.TITLES.logs),
    ...sources.flatMap((source, i): Block[] => {
      const notes = source.notes
        .slice(0, MOST_NOTES)
        .map((note) => oneLine(context.words.importMessages.noteText(note, 'window'), NOTE_LENGTH))
      const more = source.notes.length - notes.length
      return [
        {
          text: [
            {
              text: `${context.words.logs.logName(i)} (${shortHash(source.sha256)}): `,
              bold: true,
            },
            `${context.words.logs.rowsText(rowsTold(source))} ${context.words.logs.unitDecisionText(source.unit)} ${context.words.logs.dateDecisionText(source.dateOrder)} ${context.words.logs.columnsText(columnsTold(source))}`,
          ],
          ...SMALL,
          margin: [0, 0, 0, 2],
        },
        ...notes.map((note) => paragraph(`– ${note}`, { ...SMALL, margin: [8, 0, 0, 2] })),
        ...(more > 0
          ? [
              paragraph(context.words.pages.furtherNotesText(more), {
                ...SMALL,
                margin: [8, 0, 0, 2],
              }),
            ]
          : []),
      ]
    }),
    paragraph(metersText(context), SMALL),
    ...(duplicatesAcrossLogs > 0
      ? [paragraph(context.words.pages.duplicatesText(duplicatesAcrossLogs), SMALL)]
      : []),
  ]
}

/** The meters with their readings and the logs that hold these. */
function metersText(context: ReportContext): string {
  const { readings, sources } = context.analysis
  const counts = context.meterNames.map(() => 0)
  const logsOf = context.meterNames.map(() => new Set<number>())
  for (let i = 0; i < readings.n; i++) {
    counts[readings.meter[i]]++
    logsOf[readings.meter[i]].add(readings.source[i])
  }
  const log = (source: number) =>
    `${context.words.logs.logName(source)}, ${shortHash(sources[source].sha256)}`
  return context.words.pages.metersText(
    context.meterNames.map((name, meter) => ({
      name,
      n: counts[meter],
      logs: [...logsOf[meter]].sort((a, b) => a - b).map(log),
    })),
  )
}
