import { type ReactNode, useEffect, useRef } from 'react'
import type { AskedOfPerson } from '../../src-core/model/askedOfPerson'
import type { FileAsk } from '../useFile'
import { PassphraseForm } from './PassphraseForm'
import { useWords } from '../words'

interface Props {
  readonly asked: AskedOfPerson
  readonly ask: FileAsk
  readonly busy: boolean
}

/** What the program asks before it goes on; the window waits behind it, Escape gives it up. */
export function AskedDialog({ asked, ask, busy }: Props) {
  const { fileScreen } = useWords()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    const element = dialog.current
    if (element && !element.open) element.showModal()
  }, [])
  const cancel = () => ask({ does: 'cancel' })
  return (
    <dialog
      ref={dialog}
      className="asked"
      aria-labelledby="asked-heading"
      onCancel={(event) => {
        event.preventDefault()
        cancel()
      }}
    >
      {asked.kind === 'passphrase' ? (
        <>
          <h2 id="asked-heading">{fileScreen.protectedHeading(asked.name)}</h2>
          <PassphraseForm
            key={asked.tries}
            name={fileScreen.DO_OPEN}
            wrong={asked.again}
            busy={busy}
            onGiven={(passphrase) => ask({ does: 'open-with', passphrase })}
            onCancel={cancel}
          />
        </>
      ) : (
        <Choice asked={asked} ask={ask} busy={busy} onCancel={cancel} />
      )}
    </dialog>
  )
}

function Choice(props: {
  readonly asked: Exclude<AskedOfPerson, { readonly kind: 'passphrase' }>
  readonly ask: FileAsk
  readonly busy: boolean
  readonly onCancel: () => void
}): ReactNode {
  const { asked, ask, busy, onCancel } = props
  const { fileScreen, windowWork } = useWords()
  const { heading, text, goOn } = fileScreen.askedWords(asked)
  return (
    <>
      <h2 id="asked-heading">{heading}</h2>
      <p>{text}</p>
      <p className="actions">
        {asked.kind === 'unsaved' && (
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save-first' })}>
            {fileScreen.SAVE_FIRST}
          </button>
        )}
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'go-on' })}>
          {goOn}
        </button>
        <button type="button" onClick={onCancel}>
          {windowWork.CANCEL}
        </button>
      </p>
    </>
  )
}
