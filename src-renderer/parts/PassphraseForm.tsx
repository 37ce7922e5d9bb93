import { type SyntheticEvent, useEffect, useRef, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { lengthFault } from '../lengthFault'

interface Props {
  /** What is done with it, on the button. */
  readonly name: string
  /** Whether it is a new one, to be written twice. */
  readonly isNew?: boolean
  /** What was wrong with the one before. */
  readonly wrong: string | null
  readonly busy: boolean
  readonly onGiven: (passphrase: string) => void
  readonly onCancel: () => void
}

const EMPTY = 'Write at least one character.'
const DIFFER = 'The two differ. Write the same twice.'

/** Asks for a passphrase. It may be pasted; it is shown on wish. */
export function PassphraseForm({ name, isNew = false, wrong, busy, onGiven, onCancel }: Props) {
  const [passphrase, setPassphrase] = useState('')
  const [again, setAgain] = useState('')
  const [seen, setSeen] = useState(false)
  const [found, setFound] = useState(wrong ?? '')
  const long = lengthFault(passphrase, MESSAGE_LIMITS.passphrase)
  const fault = long || found
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => field.current?.focus(), [])

  function give(event: SyntheticEvent) {
    event.preventDefault()
    if (busy) return
    const wanting = passphrase === '' ? EMPTY : isNew && passphrase !== again ? DIFFER : ''
    setFound(wanting)
    if (wanting === '' && long === '') onGiven(passphrase)
    else field.current?.focus()
  }

  const type = seen ? 'text' : 'password'
  return (
    <form className="passphrase" onSubmit={give}>
      <label>
        Passphrase
        <input
          ref={field}
          type={type}
          value={passphrase}
          autoComplete="off"
          aria-invalid={fault !== ''}
          aria-describedby={fault === '' ? undefined : 'passphrase-fault'}
          onChange={({ currentTarget }) => setPassphrase(currentTarget.value)}
        />
      </label>
      {fault !== '' && (
        <p id="passphrase-fault" className="missing" role="alert">
          {fault}
        </p>
      )}
      {isNew && (
        <label>
          The same again
          <input
            type={type}
            value={again}
            autoComplete="off"
            onChange={({ currentTarget }) => setAgain(currentTarget.value)}
          />
        </label>
      )}
      <label className="tick">
        <input
          type="checkbox"
          checked={seen}
          onChange={({ currentTarget }) => setSeen(currentTarget.checked)}
        />
        Show what is written
      </label>
      <p className="actions">
        <button type="submit" className="main-action" aria-disabled={busy}>
          {name}
        </button>
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
      </p>
    </form>
  )
}
