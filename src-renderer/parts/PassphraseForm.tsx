import { type SyntheticEvent, useEffect, useRef, useState } from 'react'
import { MESSAGE_LIMITS } from '../../src-core/bridge/limits'
import { lengthFault } from '../lengthFault'
import { useWords } from '../words'

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

/** Asks for a passphrase. It may be pasted; it is shown on wish. */
export function PassphraseForm({ name, isNew = false, wrong, busy, onGiven, onCancel }: Props) {
  const words = useWords()
  const { fileScreen, windowWork } = words
  const [passphrase, setPassphrase] = useState('')
  const [again, setAgain] = useState('')
  const [seen, setSeen] = useState(false)
  const [found, setFound] = useState(wrong ?? '')
  const long = lengthFault(words, passphrase, MESSAGE_LIMITS.passphrase)
  const fault = long || found
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => field.current?.focus(), [])

  function whatIsWanting(): string {
    if (passphrase === '') return fileScreen.PASSPHRASE_EMPTY
    return isNew && passphrase !== again ? fileScreen.PASSPHRASES_DIFFER : ''
  }

  function give(event: SyntheticEvent) {
    event.preventDefault()
    if (busy) return
    const wanting = whatIsWanting()
    setFound(wanting)
    if (wanting === '' && long === '') onGiven(passphrase)
    else field.current?.focus()
  }

  const type = seen ? 'text' : 'password'
  return (
    <form className="passphrase" onSubmit={give}>
      <label>
        {fileScreen.PASSPHRASE}
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
          {fileScreen.PASSPHRASE_AGAIN}
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
        {fileScreen.SHOW_WRITTEN}
      </label>
      <p className="actions">
        <button type="submit" className="main-action" aria-disabled={busy}>
          {name}
        </button>
        <button type="button" onClick={onCancel}>
          {windowWork.CANCEL}
        </button>
      </p>
    </form>
  )
}
