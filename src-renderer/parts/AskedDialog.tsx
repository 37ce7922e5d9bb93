import { type ReactNode, useEffect, useRef } from 'react'
import type { AskedOfPerson } from '../../src-core/bridge/fileView'
import type { FileAsk } from '../useFile'
import { PassphraseForm } from './PassphraseForm'

interface Props {
  readonly asked: AskedOfPerson
  readonly ask: FileAsk
  readonly busy: boolean
}

/** What the program asks before it goes on; the window waits behind it, Escape gives it up. */
export function AskedDialog({ asked, ask, busy }: Props) {
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
          <h2 id="asked-heading">{asked.name === '' ? 'This visit' : asked.name} is protected</h2>
          <PassphraseForm
            key={asked.tries}
            name="Open"
            wrong={asked.again}
            busy={busy}
            onGiven={(passphrase) => ask({ does: 'open-with', passphrase })}
            onCancel={cancel}
          />
        </>
      ) : (
        <Choice {...WORDS[asked.kind](asked as never)} ask={ask} busy={busy} onCancel={cancel} />
      )}
    </dialog>
  )
}

interface Words {
  readonly heading: string
  readonly text: string
  readonly goOn: string
  /** Whether saving first is a way. */
  readonly saves?: true
}

const WORDS: {
  readonly [K in Exclude<AskedOfPerson['kind'], 'passphrase'>]: (
    asked: Extract<AskedOfPerson, { kind: K }>,
  ) => Words
} = {
  unsaved: ({ next }) => ({
    heading: 'This visit is not saved',
    text: `What was changed since the last save is lost when ${next ?? 'another visit'} takes its place.`,
    goOn: 'Go on without saving',
    saves: true,
  }),
  'open-elsewhere': ({ name }) => ({
    heading: `${name} is open elsewhere`,
    text: 'Another window or program has it open. If both save, one asks before it replaces what the other saved. Close it there first, or open it here too and only look.',
    goOn: 'Open it here too',
  }),
  'changed-outside': ({ name }) => ({
    heading: `${name} was changed by another program`,
    text: 'It is not as this window opened or saved it. Saving puts this visit in its place; what stands there now is kept beside it, its name ending in .previous, where neither is protected.',
    goOn: 'Replace it',
  }),
  'gone-outside': ({ name }) => ({
    heading: `${name} is gone`,
    text: 'It no longer stands where this window opened or saved it: it was moved or removed. Saving writes it there anew.',
    goOn: 'Write it anew',
  }),
  'other-stands': ({ name, isVisit }) => ({
    heading: isVisit ? `${name} is another visit` : `${name} is another file`,
    text: isVisit
      ? 'It was not opened in this window. Saving puts this visit in its place: its logs and decisions go with it.'
      : 'It was not made by this window. Saving puts this visit in its place, and what it holds is lost.',
    goOn: 'Replace it',
  }),
  'remove-traces': () => ({
    heading: 'Remove traces?',
    text: 'Removes the list of recent visits, what was never saved of visits that are not open, and the program log. Visits that you saved stay where they are.',
    goOn: 'Remove',
  }),
}

function Choice(
  props: Words & { readonly ask: FileAsk; readonly busy: boolean; readonly onCancel: () => void },
): ReactNode {
  const { heading, text, goOn, saves, ask, busy, onCancel } = props
  return (
    <>
      <h2 id="asked-heading">{heading}</h2>
      <p>{text}</p>
      <p className="actions">
        {saves && (
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save-first' })}>
            Save first
          </button>
        )}
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'go-on' })}>
          {goOn}
        </button>
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
      </p>
    </>
  )
}
