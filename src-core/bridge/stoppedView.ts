import type { Choice, Question, Refusal, RefusalCode } from '../log/refusal'

/** What stands in the way of opening the logs. */
export interface StoppedView {
  readonly kind: 'stopped'
  readonly refusals: readonly RefusalView[]
}

/** Why a log was not read, or what it needs to be told first. */
export interface RefusalView {
  readonly log: string
  readonly code: RefusalCode
  readonly line: number | null
  readonly message: string
  readonly question: QuestionView | null
}

export interface QuestionView {
  /** The answer that it asks for. */
  readonly asks: 'unit' | 'dates' | 'columns'
  readonly text: string
  readonly choices: readonly Choice[]
}

/** Refusals and questions as the window shows them. */
export function stoppedView(refusals: readonly Refusal[]): StoppedView {
  return {
    kind: 'stopped',
    refusals: refusals.map(({ log, code, line, message, question }) => ({
      log,
      code,
      line,
      message,
      question: question && questionView(question, code),
    })),
  }
}

function questionView(question: Question, code: RefusalCode): QuestionView {
  switch (question.option) {
    case '--log-unit':
      return { asks: 'unit', text: question.text, choices: question.choices }
    case '--dates':
      return { asks: 'dates', text: question.text, choices: question.choices }
    case '--columns': {
      // The choices name columns by their number; what the column holds is what the refusal missed.
      const role = code === 'no-date-column' ? 'date' : 'glucose'
      const choices = question.choices.map((choice) => ({ ...choice, answer: `${role}=${choice.answer}` }))
      return { asks: 'columns', text: `Which column holds the ${role}?`, choices }
    }
  }
}
