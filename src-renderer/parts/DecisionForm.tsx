import { useContext, useRef, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import type { ReadingView } from '../../src-core/bridge/readingView'
import { lengthFault } from '../lengthFault'
import { DraftsContext } from '../drafts'
import type { VisitHold } from '../useVisit'

interface Props {
  readonly view: ReadingView
  readonly visit: VisitHold
  readonly onNext: (() => void) | null
  readonly nextName: string
  /** How far the person has come with the list; '' where there is nothing to say. */
  readonly told: string
}

const REASON_FIRST = 'Say why first: a low is left out of averages only with a reason.'

/** Keep or leave out, side by side and alike, neither chosen beforehand; and why. */
export function DecisionForm({ view, visit, onNext, nextName, told }: Props) {
  const { key, value, low, decision } = view
  const drafts = useContext(DraftsContext)
  const draft = `decide ${JSON.stringify(key)}`
  const [reason, setReason] = useState(drafts.get(draft)?.reason ?? decision?.reason ?? '')
  const [missing, setMissing] = useState(false)
  const field = useRef<HTMLTextAreaElement>(null)
  const busy = visit.busy !== ''
  const long = lengthFault(reason, MESSAGE_LIMITS.words)
  const fault = long || (missing ? REASON_FIRST : '')

  function decide(choice: 'keep' | 'leave-out') {
    if (busy) return
    const said = choice === 'keep' ? `Kept ${value}.` : `Left ${value} out of averages.`
    const unsaid = choice === 'leave-out' && low && reason.trim() === ''
    setMissing(unsaid)
    if (unsaid || long !== '') {
      field.current?.focus()
      return
    }
    void visit.edit(
      { kind: 'decide', reading: key, choice, reason },
      low ? `${said} It stays among the lows.` : said,
    )
  }

  return (
    <div className="decision" role="group" aria-label="Your decision">
      {decision && (
        <p className="decided">
          {decision.text}
          {decision.why !== '' && `: ${decision.why}`}.{' '}
          <button
            type="button"
            className="link"
            aria-disabled={busy}
            onClick={() =>
              void visit.edit({ kind: 'take-back', reading: key }, `Taken back: ${value} is open again.`)
            }
          >
            Take back
          </button>
        </p>
      )}
      <label className="reason">
        Why?
        <textarea
          ref={field}
          rows={1}
          placeholder="printed beside the reading"
          value={reason}
          aria-invalid={fault !== ''}
          aria-describedby={fault === '' ? undefined : 'reason-missing'}
          onChange={({ currentTarget }) => {
            setReason(currentTarget.value)
            drafts.set(draft, { reason: currentTarget.value })
          }}
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
          aria-disabled={busy}
          aria-pressed={decision?.choice === 'keep'}
          onClick={() => decide('keep')}
        >
          Keep
        </button>
        <button
          type="button"
          aria-disabled={busy}
          aria-pressed={decision?.choice === 'leave-out'}
          onClick={() => decide('leave-out')}
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
