import type { TypedReading } from '../model/decision'
import type { History } from '../visit/history'
import { USUAL_DIARY_DAYS } from '../reference/paper'
import type { Visit } from '../visit/visit'
import type { FileView } from './fileView'
import { formsView, type FormsView } from './forms/formsView'
import type { StoppedView } from './stoppedView'
import type { OpenedView } from './visitView'
import { answersTold } from '../told/logs'
import type { Words } from '../wording/words'

/** Something that was not done, and why; `about` names the log where it is one's own. */
export interface Problem {
  readonly about: string | null
  readonly message: string
}

/** The visit as it stands, all that the window shows at once. */
export interface VisitState {
  /** Grows with every change; messages about one state name it. */
  readonly revision: number
  /** Another one where another visit has taken the place of the one before. */
  readonly visitNumber: number
  readonly visit: DocumentView
  readonly report: ReportView
  readonly file: FileView
  /** What the program could not open when it was started; told until another visit or log is there. */
  readonly unopened: readonly Problem[]
}

/** What was made of the visit. */
export type ReportView = OpenedView | StoppedView | { readonly kind: 'empty' }

/** The document itself, in the shapes in which its forms edit it. */
export interface DocumentView extends Pick<
  Visit,
  'kit' | 'shifts' | 'period' | 'versus' | 'targets' | 'unit' | 'paper' | 'label'
> {
  /** Latest days that the diary shows, 0 for none. */
  readonly diary: number | 'all'
  readonly logs: readonly DocumentLog[]
  readonly typed: readonly TypedReading[]
  readonly forms: FormsView
  /** What undo would take back, and redo do again; null where there is nothing. */
  readonly undo: string | null
  readonly redo: string | null
}

export interface DocumentLog {
  readonly name: string
  readonly sha256: string
  readonly answers: Visit['logs'][number]['answers']
  /** The same in words; '' where nothing was answered. */
  readonly answered: string
  /** The stretches of its times that were moved: place among all, and in words. */
  readonly moves: readonly { readonly place: number; readonly text: string }[]
}

export function documentView(words: Words, { visit, undoable, redoable }: History): DocumentView {
  const { kit, shifts, period, versus, targets, unit, paper, label, diary, typed } = visit
  const last = undoable.at(-1)
  const next = redoable.at(-1)
  return {
    logs: visit.logs.map(({ name, sha256, answers }) => ({
      name,
      sha256,
      answers,
      answered: answersTold(answers).map(words.logs.answerText).join('; '),
      moves: shifts.flatMap((shift, place) =>
        shift.log === undefined || shift.log === sha256
          ? [{ place, text: words.importMessages.movedText(shift) }]
          : [],
      ),
    })),
    typed,
    forms: formsView(words, visit),
    kit,
    shifts,
    period,
    versus,
    targets,
    unit,
    paper,
    label,
    diary: diary ?? USUAL_DIARY_DAYS,
    undo: last === undefined ? null : words.window.editName(last.edit),
    redo: next === undefined ? null : words.window.editName(next.edit),
  }
}
