import { useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { FileView } from '../../src-core/bridge/fileView'
import type { FileAsk } from '../useFile'
import type { VisitHold } from '../useVisit'
import { Beginning } from './Beginning'
import { PassphraseForm } from './PassphraseForm'

interface Props {
  readonly bridge: Bridge
  readonly visit: VisitHold
  readonly file: FileView
  readonly ask: FileAsk
  readonly onOpen: () => void
}

/** The visit's file: where it is, whether all is saved, its protection, and other visits. */
export function FileSection({ bridge, visit, file, ask, onOpen }: Props) {
  const busy = visit.busy !== ''
  const { name, folder, edited, isProtected, protectionChanged, hasDialogs } = file
  const isNew = name === null && !edited
  const inBrowser = !hasDialogs && folder === null
  return (
    <>
      <h2 id="section-heading">{name ?? (isNew ? 'An empty visit' : 'Not saved in a file yet')}</h2>
      <p className="quiet">
        {isNew
          ? 'There is nothing to save yet.'
          : [folder, edited ? 'edited: not all is saved' : 'all is saved', isProtected && 'protected']
              .filter((part) => part)
              .join(' · ')}
      </p>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save' })}>
          {inBrowser ? 'Save as a download' : 'Save'}
        </button>
        {!inBrowser && (
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'save-as' })}>
            {hasDialogs ? 'Save as …' : 'Save a copy as a download'}
          </button>
        )}
      </p>
      {inBrowser && (
        <p className="quiet">
          A browser does not tell where a file stands, so each save is a new download. To save in place, name
          the visit when you start: npm run browser -- FILE.
        </p>
      )}
      <h3>Protection</h3>
      <Protection
        key={String(isProtected)}
        isProtected={isProtected}
        isPending={protectionChanged}
        busy={busy}
        ask={ask}
      />
      <h3>Another visit</h3>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={onOpen}>
          Open a visit
        </button>
        <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'begin' })}>
          Begin an empty one
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
  const { isProtected, isPending, busy, ask } = props
  const [writing, setWriting] = useState(false)
  if (writing) {
    return (
      <>
        <p>
          Write it down where you find it again: without the passphrase nobody can open the file, and nobody
          can bring it back.
        </p>
        <PassphraseForm
          name="Protect"
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
      <p>
        {isProtected
          ? 'The file opens with the passphrase alone'
          : 'Whoever may read the file can read this visit'}
        {isPending && ', from the next save on'}.
      </p>
      <p className="actions">
        <button type="button" aria-disabled={busy} onClick={() => setWriting(true)}>
          {isProtected ? 'Another passphrase …' : 'Protect with a passphrase …'}
        </button>
        {isProtected && (
          <button
            type="button"
            aria-disabled={busy}
            onClick={() => busy || ask({ does: 'protect', passphrase: null })}
          >
            Take the protection away
          </button>
        )}
      </p>
    </>
  )
}
