import { parentPort, workerData } from 'node:worker_threads'
import type { ReadingFilter } from '../../src-core/bridge/readingRows'
import type { WaysSubject } from '../../src-core/bridge/waysView'
import { EMPTY_VISIT } from '../../src-core/visit/visit'
import { reportKeeper } from '../../src-core/visit/visitReport'
import { BYTE_TOOLS } from '../files/byteTools'
import type { Moments, PdfSettings } from '../../src-core/window/effects'
import { createCalculator } from './calculator'
import { calculationControl } from './calculationControl'
import { partsReceiver, type VisitParts } from './visitParts'
import { ENGLISH } from '../../src-core/wording/english'

// The thread in which everything of a visit is computed. It holds the figures and knows no window.

export type Question =
  | { readonly does: 'report'; readonly visit: VisitParts; readonly moments: Moments }
  | { readonly does: 'rows'; readonly filter: ReadingFilter; readonly from: number; readonly count: number }
  | { readonly does: 'reading'; readonly index: number }
  | { readonly does: 'picture' }
  | {
      readonly does: 'ways'
      readonly visit: VisitParts
      readonly moments: Moments
      readonly sha256: string
      readonly subject: WaysSubject
    }
  | { readonly does: 'pdf'; readonly settings: PdfSettings; readonly nowMs: number }

export type Asked = Question & { readonly id: number }
export type Answered =
  { readonly id: number; readonly result: unknown } | { readonly id: number; readonly error: unknown }

const control = calculationControl(workerData as SharedArrayBuffer)
const received = partsReceiver(EMPTY_VISIT)
const calculator = createCalculator(ENGLISH, {
  visitReport: reportKeeper(ENGLISH, BYTE_TOOLS),
  // Loaded when first needed: the PDF library takes longer to start than all the figures.
  reportPdf: async (analysis, options) =>
    (await import('../pdf/report')).reportPdf(ENGLISH, analysis, options),
  watch: (progress) => control.watch(progress),
  isCancelled: () => control.isCancelled(),
})

function answer(question: Question): Promise<unknown> {
  switch (question.does) {
    case 'report':
      return calculator.report(received(question.visit), question.moments)
    case 'rows':
      return calculator.rows(question.filter, question.from, question.count)
    case 'reading':
      return calculator.reading(question.index)
    case 'picture':
      return calculator.picture()
    case 'ways': {
      const { visit, moments, sha256, subject } = question
      return calculator.waysToRead(received(visit), moments, sha256, subject)
    }
    case 'pdf':
      return calculator.pdf(question.settings, question.nowMs)
  }
}

parentPort?.on('message', ({ id, ...question }: Asked) => {
  const send = (answered: Answered) => parentPort?.postMessage(answered)
  answer(question).then(
    (result) => send({ id, result }),
    (error: unknown) => send({ id, error }),
  )
})
