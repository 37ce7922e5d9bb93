import type { Decision, ReadingKey, TypedReading } from '../../model/decision'
import type { PeriodFigures } from '../../analysis/analysis'
import { count } from './numbers'

// Sentences of the window alone.

/** What of an edit of a visit is told. */
export type EditTold =
  | { readonly kind: 'add-logs'; readonly logs: readonly { readonly name: string }[] }
  | { readonly kind: 'remove-log' | 'answer' | 'remove-typed' }
  | { readonly kind: 'decide'; readonly decision: Pick<Decision, 'choice' | 'reading'> }
  | { readonly kind: 'take-back'; readonly reading: ReadingKey }
  | {
      readonly kind: 'type-reading'
      readonly reading: TypedReading
      readonly replaces?: number
      readonly insteadOf?: Decision
    }
  | { readonly kind: 'set'; readonly settings: object }

/** What an edit did, to be read after 'Undo': 'leaving out 288'. */
export function editName(edit: EditTold): string {
  switch (edit.kind) {
    case 'add-logs':
      return edit.logs.length === 1 ? `adding ${edit.logs[0].name}` : `adding ${edit.logs.length} logs`
    case 'remove-log':
      return 'removing a log'
    case 'answer':
      return 'an answer about a log'
    case 'decide': {
      const { choice, reading } = edit.decision
      return `${choice === 'keep' ? 'keeping' : 'leaving out'} ${reading.value}`
    }
    case 'take-back':
      return `taking back the decision on ${edit.reading.value}`
    case 'type-reading':
      return `${edit.replaces === undefined && !edit.insteadOf ? 'typing' : 'correcting to'} ${edit.reading.value}`
    case 'remove-typed':
      return 'removing a typed reading'
    case 'set':
      return settingName(Object.keys(edit.settings))
  }
}

const SETTINGS: Readonly<Record<string, string>> = {
  kit: 'a change to the kit',
  period: 'a change to the period',
  versus: 'a change to the second period',
  targets: 'a change to the targets',
  goal: 'a change to the goal before meals',
  unit: 'a change to the unit',
  paper: 'a change to the paper',
  label: 'a change to the label',
  diary: 'a change to the diary',
  shifts: 'a change to the meter’s clock',
}

function settingName(changed: readonly string[]): string {
  return (changed.length > 0 && SETTINGS[changed[0]]) || 'a change to the settings'
}

/** Stands in the window and at the head of every page while the sample is all that a visit holds. */
export const SAMPLE_LABEL = 'Invented sample, not a person'
export const SAMPLE_PUT_AWAY = 'The sample was put away.'
export const SAMPLE_AMONG_LOGS =
  'The invented sample is among the logs. Remove it under Logs before anything is printed.'

/** Told of logs that join others: they may be another person's. */
export const ADDED_TO_OTHERS =
  'Added to the logs that were there. Another person’s log? Undo, then begin an empty visit.'

/** Readings that are in no figure, for the days of the report were chosen before. */
export const outsideText = (readings: number) =>
  `${count(readings, 'reading')} ${readings === 1 ? 'lies' : 'lie'} outside the days of this report.`
export const newOutsideText = (readings: number) =>
  `${readings} of the new readings ${readings === 1 ? 'lies' : 'lie'} outside the days of this report.`

/** Told of a log that is in the visit already. */
export const LOG_HELD_ALREADY = 'It is among the logs already.'
export const TOO_MANY_LOGS = (most: number) => `The window takes up to ${most} logs. Remove some first.`
export const STALE =
  'The visit was changed in another window in the meantime; this one now shows it as it is. Do it again if it still makes sense.'

/** Kept and left out weigh the same; of a low it is said that it stays. */
export const leaveOutLabel = (low: boolean) =>
  low ? 'Leave out of averages (stays among the lows)' : 'Leave out of averages'

/** Above the second column of figures. */
export const checkedTitle = (decided: boolean) =>
  decided ? 'Without doubtful ones, with your decisions' : 'Doubtful left out'
/** What the choice does, told where it is made. */
export const LEAVING_OUT =
  'The large figures stay as logged. What you leave out is missing from the column ‘Without doubtful ones, with your decisions’ of the figures below them.'

/** What was decided of a reading, as it stands beside it. */
export function decidedText(choice: 'keep' | 'leave-out', low: boolean): string {
  if (choice === 'keep') return 'Kept'
  return low ? 'Left out of averages; stays among the lows' : 'Left out of averages'
}

/** Above the list of readings to decide: those that were kept stand there too, and what may be somebody else's. */
export function doubtfulListText(listed: {
  readonly doubtful: number
  readonly kept: number
  readonly others: number
}): string {
  const { doubtful, kept, others } = listed
  if (doubtful + kept + others === 0) return count(0, 'doubtful reading')
  const also = kept === 0 ? '' : ` and ${kept} kept by you`
  const end =
    others === 0 ? '' : ` At the end: ${count(others, 'reading')} that may be somebody else’s, by the note.`
  return `${count(doubtful, 'doubtful reading')}${also}, lows on top. None of them disappears.${end}`
}

/** '438 readings', '12 of 438 readings' in a list that is filtered. */
export function listedText(listed: number, all: number): string {
  return listed === all ? count(all, 'reading') : `${listed} of ${count(all, 'reading')}`
}

/** '438 readings on 88 of 90 days'. `besideSensor`: whether the period holds a sensor's values too. */
export function extentText(
  { asLogged, days, daysWithReadings }: Pick<PeriodFigures, 'asLogged' | 'days' | 'daysWithReadings'>,
  besideSensor: boolean,
): string {
  const readings = count(asLogged.n, besideSensor ? 'finger-stick reading' : 'reading')
  return `${readings} on ${daysWithReadings} of ${count(days, 'day')}`
}
