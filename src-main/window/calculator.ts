import type { Analysis } from '../../src-core/analysis/analysis'
import { pictureScreen, type PictureScreenView } from '../../src-core/bridge/pictureScreen'
import {
  listedReadings,
  type ReadingFilter,
  rowsView,
  type RowsView,
} from '../../src-core/bridge/readingRows'
import { readingView, type ReadingView } from '../../src-core/bridge/readingView'
import { stoppedView } from '../../src-core/bridge/stoppedView'
import { reportFileName } from '../../src-core/bridge/fileNames'
import {
  type MoveView,
  moveView,
  type WaysSubject,
  type WaysView,
  waysView,
} from '../../src-core/bridge/waysView'
import { visitView } from '../../src-core/bridge/visitView'
import type { Watch } from '../../src-core/log/logSource'
import { moved, waysToRead } from '../../src-core/log/waysToRead'
import type { Visit } from '../../src-core/visit/visit'
import type { Made, MadePdf, Moments, PdfSettings } from '../../src-core/window/effects'
import { requestOf } from '../../src-core/visit/visitRequest'
import { messageText } from '../../src-core/wording/message'
import type { VisitReport } from '../../src-core/visit/visitReport'
import { BYTE_TOOLS } from '../files/byteTools'
import type { ReportOptions } from '../pdf/report'
import type { Words } from '../../src-core/wording/words'

/** Makes all that is computed of a visit. It holds the figures made last; the visit itself is the service's. */
export interface Calculator {
  report(visit: Visit, moments: Moments): Promise<Made>
  rows(filter: ReadingFilter, from: number, count: number): Promise<RowsView>
  reading(index: number): Promise<ReadingView | null>
  picture(): Promise<PictureScreenView>
  /** What choices about the reading of one of the visit's logs would make of it; null where there is no such log. */
  waysToRead(
    visit: Visit,
    moments: Moments,
    sha256: string,
    subject: WaysSubject,
  ): Promise<WaysView | MoveView | null>
  pdf(visit: PdfSettings, nowMs: number): Promise<MadePdf>
}

export interface CalculatorTools {
  readonly visitReport: VisitReport
  readonly reportPdf: (analysis: Analysis, options: ReportOptions) => Promise<Uint8Array>
  readonly watch?: Watch
  /** Whether the person has had enough of what is being computed. */
  readonly isCancelled?: () => boolean
}

class Cancelled extends Error {}

/** No zone's day begins within a quarter of an hour (IANA time zone database): pages bear the day they were made. */
const DAY_STEP_MS = 15 * 60_000

export function createCalculator(words: Words, tools: CalculatorTools): Calculator {
  const { visitReport, reportPdf, watch, isCancelled } = tools
  let analysis: Analysis | null = null
  /** The list asked for last: a person scrolls through one list for long. */
  let listed: { readonly key: string; readonly indexes: Uint32Array } | null = null
  /** The pages made last of these figures: what a person looks at is then saved or printed. */
  let made: { readonly key: string; readonly pdf: MadePdf } | null = null

  function figures(): Analysis {
    if (analysis === null) throw new Error('No figures were made yet')
    return analysis
  }

  function goOn(): void {
    if (isCancelled?.()) throw new Cancelled()
  }

  function report(visit: Visit, { readAt, now, broughtAlong }: Moments): Made {
    try {
      const outcome = visitReport(
        visit,
        { ...readAt, zone: visit.zone ?? readAt.zone },
        {
          watch: (progress) => {
            goOn()
            watch?.(progress)
          },
          beforeStage: goOn,
        },
      )
      if (outcome.kind === 'wrong-targets') {
        const { wrong, unit } = outcome
        return {
          kind: 'refused',
          message: messageText(words.targets.wrongRangeUnitMessage(wrong, unit), 'window'),
        }
      }
      if (outcome.kind === 'stopped') return stoppedView(words, outcome.refusals)
      const view = visitView(words, outcome.analysis, now, broughtAlong)
      // Only now: what fails on the way leaves the figures with the visit that they are of.
      analysis = outcome.analysis
      listed = null
      made = null
      return view
    } catch (error) {
      if (error instanceof Cancelled) return { kind: 'cancelled' }
      throw error
    }
  }

  function ways(
    visit: Visit,
    { readAt }: Moments,
    sha256: string,
    subject: WaysSubject,
  ): WaysView | MoveView | null {
    const source = requestOf(words, visit, BYTE_TOOLS).sources.find((log) => log.sha256 === sha256)
    if (source === undefined) return null
    const context = { ...readAt, zone: visit.zone ?? readAt.zone }
    if (subject.of !== 'move')
      return waysView(words, waysToRead(source, subject, context, visit.shifts), subject.of)
    const shift = { ...subject.days, minutes: subject.minutes, log: sha256 }
    const done = moved(source, shift, context, visit.shifts)
    return done && moveView(words, done)
  }

  function rows(filter: ReadingFilter, from: number, count: number): RowsView {
    const key = JSON.stringify(filter)
    if (listed?.key !== key) listed = { key, indexes: listedReadings(words, figures(), filter) }
    return rowsView(words, figures(), filter.show, listed.indexes, from, count)
  }

  async function pdf(settings: PdfSettings, nowMs: number): Promise<MadePdf> {
    const { paper, label, diary, printed, attach } = settings
    // What carries a visit's file carries it as it would be saved now.
    const key = attach === null ? JSON.stringify([settings, Math.floor(nowMs / DAY_STEP_MS)]) : null
    if (key !== null && made?.key === key) return made.pdf
    const of = figures()
    const bytes = await reportPdf(of, {
      paper,
      label,
      ...(diary !== null && { diaryDays: diary === 'all' ? Infinity : diary }),
      printed,
      attach,
      madeAtMs: nowMs,
    })
    const pdf = { fileName: reportFileName(of.periods[0], label), bytes: new Uint8Array(bytes) }
    if (key !== null && of === analysis) made = { key, pdf }
    return pdf
  }

  return {
    report: async (visit, moments) => Promise.resolve(report(visit, moments)),
    rows: async (filter, from, count) => Promise.resolve(rows(filter, from, count)),
    reading: async (index) => Promise.resolve(readingView(words, figures(), index)),
    picture: async () => Promise.resolve(pictureScreen(words, figures())),
    waysToRead: async (visit, moments, sha256, subject) =>
      Promise.resolve(ways(visit, moments, sha256, subject)),
    pdf,
  }
}
