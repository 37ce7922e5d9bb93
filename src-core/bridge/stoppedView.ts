import type { RefusedLog } from '../analysis/openVisit'
import type { Question, RefusalCode } from '../log/refusal'
import type { Words } from '../wording/words'

/** What stands in the way of opening the logs. */
export interface StoppedView {
  readonly kind: 'stopped'
  readonly refusals: readonly RefusalView[]
}

/** Why a log was not read, or what it needs to be told first. */
export interface RefusalView {
  readonly log: string
  /** The log's SHA-256, by which it is answered; null where all logs together are meant. */
  readonly sha256: string | null
  readonly code: RefusalCode
  readonly line: number | null
  readonly message: string
  readonly question: QuestionView | null
}

export interface QuestionView {
  /** The answer that it asks for. */
  readonly asks: 'unit' | 'dates' | 'columns'
  readonly text: string
  readonly choices: readonly ChoiceView[]
}

/** An answer, what it says, a piece of the log read by it, and what the whole log would come to. */
export interface ChoiceView {
  readonly answer: string
  readonly label: string
  readonly example: string
  readonly effect: string
}

/** Refusals and questions as the window shows them. */
export function stoppedView(words: Words, refusals: readonly RefusedLog[]): StoppedView {
  return {
    kind: 'stopped',
    refusals: refusals.map(({ log, sha256, code, line, reason, question }) => {
      const message = words.importMessages.refusalText(reason, question?.choices ?? [], 'window')
      return {
        log: words.importMessages.refusedName(log),
        sha256,
        code,
        line,
        message,
        question: question && questionView(words, question, message),
      }
    }),
  }
}

const ASKS = { '--log-unit': 'unit', '--dates': 'dates', '--columns': 'columns' } as const

function questionView(words: Words, { option, choices }: Question, text: string): QuestionView {
  return {
    asks: ASKS[option],
    text,
    choices: choices.map((choice) => ({
      answer: choice.answer,
      label: words.importMessages.choiceLabel(choice),
      example: words.importMessages.choiceExample(choice),
      effect: words.importMessages.choiceEffect(choice),
    })),
  }
}
