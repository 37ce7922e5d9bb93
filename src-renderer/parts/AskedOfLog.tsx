import type { QuestionView, RefusalView } from '../../src-core/bridge/stoppedView'
import type { Answers } from '../../src-core/bridge/windowEdit'
import { useWords } from '../words'

interface Props {
  readonly refusal: RefusalView
  /** What was answered about this log already. */
  readonly answers: Answers
  readonly busy: boolean
  readonly onAnswer: (answers: Answers) => void
}

/** What a log leaves open, asked in place: each choice with a piece of the log read that way and what comes of it. */
export function AskedOfLog({ refusal, answers, busy, onAnswer }: Props) {
  const { logsScreen } = useWords()
  const { line, message, question } = refusal
  if (question === null) return <p>{message}</p>
  return (
    <fieldset>
      <legend>
        {question.text}
        {line !== null && <span className="quiet"> {logsScreen.lineInBrackets(line)}</span>}
      </legend>
      {question.choices.map((choice) => (
        <button
          key={choice.answer}
          type="button"
          className="choice"
          aria-disabled={busy}
          onClick={() => onAnswer(withAnswer(answers, question.asks, choice.answer))}
        >
          <b>{choice.label}</b>{' '}
          <span className="quiet">
            {[choice.example, choice.effect].filter((part) => part !== '').join(' · ')}
          </span>
        </button>
      ))}
    </fieldset>
  )
}

/** The answers with one more; a further column is added to those already named. */
export function withAnswer(answers: Answers, asks: QuestionView['asks'], answer: string): Answers {
  if (asks === 'columns') {
    return { ...answers, columns: answers.columns ? `${answers.columns},${answer}` : answer }
  }
  // The choices come from the program that will read the answer, and it refuses any other.
  return { ...answers, [asks]: answer }
}
