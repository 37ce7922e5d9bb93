import { useContext, useRef, useState } from 'react'
import type { ReadingView } from '../../src-core/bridge/readingView'
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

const LONGEST_REASON = 2_000
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

  function decide(choice: 'keep' | 'leave-out') {
    if (busy) return
    const said = choice === 'keep' ? `Kept ${value}.` : `Left ${value} out of averages.`
    if (choice === 'leave-out' && low && reason.trim() === '') {
      setMissing(true)
      field.current?.focus()
      return
    }
    setMissing(false)
    visit.edit(
      { kind: 'decide', reading: key, choice, reason },
      low ? `${said} It stays among the lows.` : said,
    )
  }

  return (
    <div className="decision" role="group" aria-label="Your decision">
      {decision && (
        <p className="decided">
          {decision.text}
          {decision.reason !== '' && `: ${decision.reason}`}.{' '}
          <button
            type="button"
            className="link"
            aria-disabled={busy}
            onClick={() =>
              visit.edit({ kind: 'take-back', reading: key }, `Taken back: ${value} is open again.`)
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
          maxLength={LONGEST_REASON}
          placeholder="printed beside the reading"
          value={reason}
          aria-invalid={missing}
          aria-describedby={missing ? 'reason-missing' : undefined}
          onChange={({ currentTarget }) => {
            setReason(currentTarget.value)
            drafts.set(draft, { reason: currentTarget.value })
          }}
        />
      </label>
      {missing && (
        <p id="reason-missing" className="missing">
          {REASON_FIRST}
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
