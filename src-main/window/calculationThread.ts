import { Worker } from 'node:worker_threads'
import type { ReadingProgress } from '../../src-core/log/logSource'
import type { Visit } from '../../src-core/visit/visit'
import type { Answered, Asked, Question } from './calculationWorker'
import type { Made, Moments } from '../../src-core/window/effects'
import type { Calculator } from './calculator'
import { calculationControl } from './calculationControl'
import { partsSender } from './visitParts'

/** A calculator whose work can be watched and stopped. */
export interface StoppableCalculator extends Calculator {
  /** Null while no report is made. */
  progress(): ReadingProgress | null
  /** Stops the report that is being made. */
  cancel(): void
}

/**
 * The calculator in a thread of its own, so that the program behind the window answers while it computes. A thread
 * that ends by a fault takes what was asked of it along; the next question starts another, which makes the figures
 * again first. `file`: the built worker.
 */
export function threadCalculator(file: string): StoppableCalculator {
  const control = calculationControl()
  let thread: Thread | null = null
  /** The report whose figures the thread holds, or held when it ended. */
  let made: { readonly visit: Visit; readonly moments: Moments } | null = null

  function running(): Thread {
    thread ??= startThread(file, control.shared, () => (thread = null))
    return thread
  }

  async function report(visit: Visit, moments: Moments): Promise<Made> {
    const { ask, partsOf } = running()
    control.begin()
    try {
      const answer = await ask<Made>({ does: 'report', visit: partsOf(visit), moments })
      if (answer.kind === 'opened') made = { visit, moments }
      return answer
    } finally {
      control.end()
    }
  }

  async function figures<T>(question: Question): Promise<T> {
    if (thread === null && made !== null) await report(made.visit, made.moments)
    return running().ask<T>(question)
  }

  return {
    report,
    rows: (filter, from, count) => figures({ does: 'rows', filter, from, count }),
    reading: (index) => figures({ does: 'reading', index }),
    picture: () => figures({ does: 'picture' }),
    waysToRead: (visit, moments, sha256, subject) => {
      const { ask, partsOf } = running()
      return ask({ does: 'ways', visit: partsOf(visit), moments, sha256, subject })
    },
    pdf: (settings, nowMs) => figures({ does: 'pdf', settings, nowMs }),
    progress: () => control.progress(),
    cancel: () => control.cancel(),
  }
}

interface Thread {
  readonly ask: <T>(question: Question) => Promise<T>
  readonly partsOf: ReturnType<typeof partsSender>
}

interface Waiting {
  readonly resolve: (result: unknown) => void
  readonly reject: (error: unknown) => void
}

function startThread(file: string, control: SharedArrayBuffer, onEnd: () => void): Thread {
  const worker = new Worker(file, { workerData: control })
  // The program ends with its window, also while something is computed.
  worker.unref()
  const waiting = new Map<number, Waiting>()
  let asked = 0
  worker.on('message', (answered: Answered) => {
    const question = waiting.get(answered.id)
    waiting.delete(answered.id)
    if ('error' in answered) question?.reject(answered.error)
    else question?.resolve(answered.result)
  })
  const ended = (error: unknown) => {
    onEnd()
    for (const { reject } of waiting.values()) reject(error)
    waiting.clear()
  }
  worker.on('error', ended)
  worker.on('exit', () => ended(new Error('The thread that computes has ended')))
  return {
    partsOf: partsSender(),
    ask: <T>(question: Question) =>
      new Promise<T>((resolve, reject) => {
        const id = asked++
        waiting.set(id, { resolve: resolve as (result: unknown) => void, reject })
        worker.postMessage({ ...question, id } satisfies Asked)
      }),
  }
}
