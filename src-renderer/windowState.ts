import type { Answers, LogFile } from '../src-core/bridge/contract'
import type { QuestionView } from '../src-core/bridge/stoppedView'
import type { VisitView } from '../src-core/bridge/visitView'

export type Paper = 'A4' | 'Letter'

/** What the window holds: the logs as chosen, the answers given, and what the program made of them. */
export interface WindowState {
  readonly logs: readonly LogFile[]
  readonly answers: Answers
  /** Null until logs were chosen. */
  readonly view: VisitView | null
  readonly busy: 'reading' | 'making-pdf' | null
  /** What went wrong outside the logs themselves; '' where nothing did. */
  readonly fault: string
  /** What has just been done; '' where nothing was. */
  readonly done: string
  readonly paper: Paper
  /** What stands at the head of the pages. */
  readonly label: string
}

export const EMPTY_WINDOW: WindowState = {
  logs: [],
  answers: {},
  view: null,
  busy: null,
  fault: '',
  done: '',
  paper: 'A4',
  label: '',
}

export type Change =
  | { readonly kind: 'started'; readonly work: 'reading' | 'making-pdf' }
  | {
      readonly kind: 'read'
      readonly logs: readonly LogFile[]
      readonly answers: Answers
      readonly view: VisitView
    }
  | { readonly kind: 'emptied' }
  | { readonly kind: 'pdf-made'; readonly fileName: string }
  | { readonly kind: 'failed'; readonly fault: string }
  | { readonly kind: 'paper-chosen'; readonly paper: Paper }
  | { readonly kind: 'label-written'; readonly label: string }

/** The state after a change. Work that failed leaves what was there before. */
export function changed(state: WindowState, change: Change): WindowState {
  switch (change.kind) {
    case 'started':
      return { ...state, busy: change.work, fault: '', done: '' }
    case 'read': {
      const { logs, answers, view } = change
      const done = view.kind === 'opened' ? `Read: ${view.extent}.` : ''
      return { ...state, logs, answers, view, busy: null, done }
    }
    case 'emptied':
      return { ...EMPTY_WINDOW, paper: state.paper, label: state.label }
    case 'pdf-made':
      return { ...state, busy: null, done: `Made ${change.fileName}.` }
    case 'failed':
      return { ...state, busy: null, fault: change.fault }
    case 'paper-chosen':
      return { ...state, paper: change.paper }
    case 'label-written':
      return { ...state, label: change.label }
  }
}

/** The answers with one more; a further column is added to those already named. */
export function withAnswer(answers: Answers, asks: QuestionView['asks'], answer: string): Answers {
  if (asks === 'columns') {
    return { ...answers, columns: answers.columns ? `${answers.columns},${answer}` : answer }
  }
  // The choices come from the program that will read the answer, and it refuses any other.
  return { ...answers, [asks]: answer }
}
