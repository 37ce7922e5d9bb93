import { goalsTold } from '../told/goals'
import { TOLD_LIMITS } from '../told/limits'
import { columnsTold, rowsTold, shortHash } from '../told/logs'
import { cautionsTold, definitionsTold } from '../told/method'
import type { ReportContext } from './context'
import type { Block } from './document'
import { heightOf, keptTogether } from './height'
import { howWellKnown } from './howWellKnown'
import { besideEachOther, heading, heads, paragraph, table, TYPE } from './parts'
import { oneLine } from './printable'
import { nextMonth } from './theWeek'

const SMALL = { fontSize: TYPE.small }
const NOTE_LENGTH = 300
/** Of the width, beside the cautions: a usual log then ends where they do. */
const SHARE_OF_LOGS = 0.42
const MOST_NOTES = 12

/**
 * How the pages came about: the logs, what they cannot tell and, asked for, every definition with its source; `beside`: in
 * two columns, which take less room.
 */
export function method(context: ReportContext, beside: boolean): readonly Block[] {
  const title = heading(context.words.pages.TITLES.method)
  if (context.options.wholeMethod) {
    return [
      title,
      heading(context.words.pages.TITLES.logs),
      ...logs(context),
      ...howWellKnown(context),
      heading(context.words.pages.TITLES.definitions),
      definitionsTable(context),
      ...keptTogether(cautions(context), context.width),
      ...nextMonth(context),
    ]
  }
  const inShort = [title, ...logs(context), paragraph(context.words.pages.WHERE_METHOD_STANDS, SMALL)]
  const after = [...inShort, ...keptTogether(cautions(context), context.width), ...nextMonth(context)]
  if (!beside) return after
  const inColumns = besideEachOther(
    [...inShort, ...nextMonth(context)],
    cautions(context),
    SHARE_OF_LOGS * context.width,
  )
  // Logs of many words would leave the other column empty.
  return heightOf(inColumns, context.width) < heightOf(after, context.width) ? inColumns : after
}

function cautions({ figures, words }: ReportContext): readonly Block[] {
  return [
    heading(words.pages.TITLES.cautions),
    ...cautionsTold(figures.kind).map((code) =>
      paragraph(words.method.CAUTIONS[code], { ...SMALL, margin: [0, 0, 0, 2] }),
    ),
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
