import { useContext, useRef, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import type { ReadingView } from '../../src-core/bridge/readingView'
import { lengthFault } from '../lengthFault'
import { DraftsContext } from '../drafts'
import { NOT_TAKEN } from '../useForm'
import { useLiveFields } from '../useLiveFields'
import type { VisitHold } from '../useVisit'
import { useWords } from '../words'

interface Props {
  readonly view: ReadingView
  readonly visit: VisitHold
  readonly onNext: (() => void) | null
  /** Once something was decided of which nothing had been. */
  readonly onDecided: () => void
  readonly nextName: string
  /** How far the person has come with the list; '' where there is nothing to say. */
  readonly told: string
}

/** Keep or leave out, side by side and alike, neither chosen beforehand; and why. */
export function DecisionForm({ view, visit, onNext, onDecided, nextName, told }: Props) {
  const words = useWords()
  const { readingsScreen } = words
  const { key, value, low, decision } = view
  /** `isNeeded`: whether something has to be said. */
  function faultOf(written: string, isNeeded: boolean): string {
    const isMissing = isNeeded && written.trim() === ''
    return lengthFault(words, written, MESSAGE_LIMITS.words) || (isMissing ? readingsScreen.REASON_FIRST : '')
  }

  const drafts = useContext(DraftsContext)
  const draft = `decide ${JSON.stringify(key)}`
  /** What is said before anything is decided is part of the visit only with the decision. */
  const [unsaid, setUnsaid] = useState(drafts.get(draft)?.reason ?? '')
  const [missing, setMissing] = useState(false)
  const field = useRef<HTMLTextAreaElement>(null)
  const live = useLiveFields({
    of: draft,
    name: readingsScreen.WHY,
    fields: { reason: decision?.reason ?? '' },
    check: ({ reason }) => {
      const message = faultOf(reason, low && decision?.choice === 'leave-out')
      return message === '' ? [] : [{ field: 'reason', message }]
    },
    send: async ({ reason }) => {
      if (decision === null) return NOT_TAKEN
      const { choice } = decision
      const edit = { kind: 'decide', reading: key, choice, reason: reason.trim() } as const
      return (await visit.edit(edit, readingsScreen.REASON_CHANGED)) ? [] : NOT_TAKEN
    },
  })
  const reason = decision ? live.values.reason : unsaid
  const fault = faultOf(reason, missing) || (live.faults.at(0)?.message ?? '')

  function write(written: string) {
    if (decision) return live.write('reason', written)
    setUnsaid(written)
    drafts.set(draft, { reason: written })
  }

  async function decide(choice: 'keep' | 'leave-out') {
    const needed = choice === 'leave-out' && low
    setMissing(needed)
    if (faultOf(reason, needed) !== '') {
      field.current?.focus()
      return
    }
    const made = await visit.edit(
      { kind: 'decide', reading: key, choice, reason },
      readingsScreen.decidedNow(choice, value, low),
    )
    if (!made) return
    drafts.delete(draft)
    live.forget()
    if (decision === null) onDecided()
  }

  return (
    <div className="decision" role="group" aria-label={readingsScreen.YOUR_DECISION}>
      {decision && (
        <p className="decided">
          {readingsScreen.decisionText(decision.text, decision.why)}{' '}
          <button
            type="button"
            className="link"
            onClick={() =>
              void visit.edit({ kind: 'take-back', reading: key }, readingsScreen.takenBack(value))
            }
          >
            {readingsScreen.TAKE_BACK}
          </button>
        </p>
      )}
      <label className="reason">
        {readingsScreen.WHY}
        <textarea
          ref={field}
          rows={1}
          placeholder={readingsScreen.WHERE_PRINTED}
          value={reason}
          aria-invalid={fault !== ''}
          aria-describedby={fault === '' ? undefined : 'reason-missing'}
          onChange={({ currentTarget }) => write(currentTarget.value)}
          onBlur={live.blur}
        />
      </label>
      {fault !== '' && (
        <p id="reason-missing" className="missing">
          {fault}
        </p>
      )}
      <p className="actions">
        <button
          type="button"
          aria-pressed={decision?.choice === 'keep'}
          onClick={({ detail }) => detail > 1 || void decide('keep')}
        >
          {readingsScreen.KEEP}
        </button>
        <button
          type="button"
          aria-pressed={decision?.choice === 'leave-out'}
          onClick={({ detail }) => detail > 1 || void decide('leave-out')}
        >
          {view.leaveOutLabel}
        </button>
        {onNext && (
          <button type="button" className="link" onClick={onNext}>
            {nextName}
          </button>
        )}
        {told !== '' && <span role="note">{told}</span>}
      </p>
    </div>
  )
}
