import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { FileView } from '../../src-core/bridge/fileView'
import type { FileAsk } from '../useFile'
import type { VisitHold } from '../useVisit'
import { Beginning } from './Beginning'
import { PassphraseForm } from './PassphraseForm'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly file: FileView
  readonly ask: FileAsk
  readonly onOpen: () => void
}

/** The visit's file: where it is, whether all is saved, its protection, and other visits. */
export function FileSection({ bridge, visit, file, ask, onOpen }: Props) {
  const { fileScreen, windowFrame } = useWords()
  const busy = visit.busy !== ''
  const { name, folder, edited, isProtected, protectionChanged, hasDialogs } = file
  const isNew = name === null && !edited
  const inBrowser = !hasDialogs && folder === null
  return (
    <>
      <h2 id="section-heading">{name ?? (isNew ? fileScreen.EMPTY_VISIT : fileScreen.NO_FILE)}</h2>
      <p className="quiet">
        {isNew ? fileScreen.NOTHING_TO_SAVE : fileScreen.fileState(folder, edited, isProtected)}
      </p>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save' })}>
          {inBrowser ? fileScreen.SAVE_DOWNLOAD : windowFrame.SAVE}
        </button>
        {!inBrowser && (
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save-as' })}>
            {hasDialogs ? fileScreen.SAVE_AS : fileScreen.SAVE_COPY}
          </button>
        )}
      </p>
      {inBrowser && <p className="quiet">{fileScreen.DOWNLOADS}</p>}
      <h3>{fileScreen.PROTECTION}</h3>
      <Protection
        key={String(isProtected)}
        isProtected={isProtected}
        isPending={protectionChanged}
        busy={busy}
        ask={ask}
      />
      <h3>{fileScreen.ANOTHER_VISIT}</h3>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={onOpen}>
          {windowFrame.OPEN_VISIT}
        </button>
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'begin' })}>
          {fileScreen.BEGIN_EMPTY}
        </button>
      </p>
      <Beginning bridge={bridge} ask={ask} busy={busy} turn={`${name} ${edited} ${visit.done}`} />
    </>
  )
}

function Protection(props: {
  readonly isProtected: boolean
  /** Whether the file is so only from the next save on. */
  readonly isPending: boolean
  readonly busy: boolean
  readonly ask: FileAsk
}) {
  const { fileScreen } = useWords()
  const { isProtected, isPending, busy, ask } = props
  const [writing, setWriting] = useState(false)
  if (writing) {
    return (
      <>
        <p>{fileScreen.WRITE_IT_DOWN}</p>
        <PassphraseForm
          name={fileScreen.DO_PROTECT}
          isNew
          wrong={null}
          busy={busy}
          onGiven={(passphrase) => {
            setWriting(false)
            ask({ does: 'protect', passphrase })
          }}
          onCancel={() => setWriting(false)}
        />
      </>
    )
  }
  return (
    <>
      <p>{fileScreen.protectionText(isProtected, isPending)}</p>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={() => setWriting(true)}>
          {isProtected ? fileScreen.PROTECT_ANEW : fileScreen.PROTECT}
        </button>
        {isProtected && (
          <button
            type="button"
            aria-disabled={busy}
            onClick={() => busy || ask({ does: 'protect', passphrase: null })}
          >
            {fileScreen.UNPROTECT}
          </button>
        )}
      </p>
    </>
  )
}
