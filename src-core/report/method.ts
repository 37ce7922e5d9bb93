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
    heading('How it was computed'),
    ...logs(context),
    ...howWellKnown(context),
    heading('Definitions'),
    definitionsTable(context),
    ...keptTogether(
      [
        heading('What these pages cannot tell'),
        ...context.words.method.cautions(context.figures.kind).map((caution) => paragraph(caution, SMALL)),
      ],
      context.width,
    ),
    ...nextMonth(context),
  ]
}

function definitionsTable(context: ReportContext): Block {
  return table(
    [
      { title: 'figure', width: 80 },
      { title: 'how', width: '*' },
      { title: 'published', width: 140 },
    ],
    [
      ...context.words.method.definitions(context.analysis.settings, context.figures.kind),
      ...(context.analysis.comparison === null ? [] : context.words.comparison.comparisonDefinitions()),
    ].map(({ figure, how, source }) => [figure, how, source]),
    SMALL,
  )
}

function logs(context: ReportContext): readonly Block[] {
  const { sources, duplicatesAcrossLogs } = context.analysis
  return [
    heading('The logs'),
    ...sources.flatMap((source, i): Block[] => {
      const notes = source.notes
        .slice(0, MOST_NOTES)
        .map((note) => oneLine(context.words.importMessages.noteText(note, 'window'), NOTE_LENGTH))
      const more = source.notes.length - notes.length
      return [
        {
          text: [
            {
              text: `${context.words.logs.logName(i)} (${context.words.logs.shortHash(source.sha256)}): `,
              bold: true,
            },
            `${context.words.logs.rowsText(source)} ${context.words.logs.unitDecisionText(source.unit)} ${context.words.logs.dateDecisionText(source.dateOrder)} ${context.words.logs.columnsText(source)}`,
          ],
          ...SMALL,
          margin: [0, 0, 0, 2],
        },
        ...notes.map((note) => paragraph(`– ${note}`, { ...SMALL, margin: [8, 0, 0, 2] })),
        ...(more > 0
          ? [
              paragraph(`– and ${context.words.numbers.count(more, 'further note')}`, {
                ...SMALL,
                margin: [8, 0, 0, 2],
              }),
            ]
          : []),
      ]
    }),
    paragraph(metersText(context), SMALL),
    ...(duplicatesAcrossLogs > 0
      ? [
          paragraph(
            `${context.words.numbers.count(duplicatesAcrossLogs, 'reading')} stood in more than one log and ${duplicatesAcrossLogs === 1 ? 'was' : 'were'} counted once.`,
            SMALL,
          ),
        ]
      : []),
  ]
}

/** 'Meters: meter A, 300 readings (log 1, 7f3a91c2); ...' */
function metersText(context: ReportContext): string {
  const { readings, sources } = context.analysis
  const counts = context.meterNames.map(() => 0)
  const logsOf = context.meterNames.map(() => new Set<number>())
  for (let i = 0; i < readings.n; i++) {
    counts[readings.meter[i]]++
    logsOf[readings.meter[i]].add(readings.source[i])
  }
  const parts = context.meterNames.map((name, meter) => {
    const where = [...logsOf[meter]]
      .sort((a, b) => a - b)
      .map(
        (source) =>
          `${context.words.logs.logName(source)}, ${context.words.logs.shortHash(sources[source].sha256)}`,
      )
    return `${name}: ${context.words.numbers.count(counts[meter], 'reading')} (${where.join('; ')})`
  })
  return `Meters: ${parts.join('; ')}.`
}
