import type { Changed, FileOutcome } from '../bridge/contract'
import type { FileView } from '../bridge/fileView'
import type { AskedOfPerson } from '../model/askedOfPerson'
import { documentView, type Problem, type VisitState } from '../bridge/visitState'
import { sentence, sentences } from './sentences'
import { isEdited, type Question, type WindowState } from './state'
import type { Outcome, Trouble } from './told'
import type { Words } from '../wording/words'

// What the window is shown of a state, and answered to a request.

/** The visit as the window shows it. */
export function visitState(words: Words, state: WindowState): VisitState {
  const { revision, visitNumber, history, report, unopened } = state
  return {
    revision,
    visitNumber,
    visit: documentView(words, history),
    report,
    file: fileView(words, state),
    unopened,
  }
}

function fileView(words: Words, state: WindowState): FileView {
  const { name, place, passphrase, saved, damage, openElsewhere } = state.file
  return {
    name,
    folder: place && place.folder,
    isProtected: passphrase !== null,
    protectionChanged: passphrase !== saved.passphrase,
    edited: isEdited(state),
    hasDialogs: state.hasDialogs,
    cautions: [...damage, ...(openElsewhere ? [sentence(words, { code: 'open-elsewhere' })] : [])],
    asked: state.question && asked(state.question),
  }
}

function asked(question: Question): AskedOfPerson {
  switch (question.kind) {
    case 'unsaved':
      return { kind: 'unsaved', next: question.next.opening.name }
    case 'passphrase': {
      const { opening, tries } = question.next
      return { kind: 'passphrase', name: opening.name ?? '', again: question.again, tries }
    }
    case 'open-elsewhere':
      return { kind: 'open-elsewhere', name: question.next.opening.name ?? '' }
    case 'changed-outside':
    case 'gone-outside':
      return { kind: question.kind, name: question.place.name }
    case 'other-stands':
      return { kind: 'other-stands', name: question.place.name, isVisit: question.isVisit }
    case 'remove-traces':
      return { kind: 'remove-traces' }
  }
}

/** The answer to a request about the visit. */
export function changed(words: Words, { state, told }: Outcome): Changed {
  return {
    state: visitState(words, state),
    problems: problems(words, told.problems),
    notices: told.notices.flatMap((one) => sentences(words, one)),
    cancelled: told.cancelled,
  }
}

/** The answer to a request about its file. */
export function fileOutcome(words: Words, outcome: Outcome): FileOutcome {
  const answer = changed(words, outcome)
  const said = outcome.told.said.map((one) => sentences(words, one))
  return {
    ...answer,
    notices: [...said.flatMap(([, ...besides]) => besides), ...answer.notices],
    said: said.map(([first]) => first).join(' '),
    download: outcome.told.download,
  }
}

export function problems(words: Words, troubles: readonly Trouble[]): readonly Problem[] {
  return troubles.map(({ about, why }) => ({ about, message: sentences(words, why).join(' ') }))
}
