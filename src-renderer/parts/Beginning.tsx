import { useEffect, useState } from 'react'
import type { Bridge } from '../../src-core/bridge/contract'
import type { BeginningView, UnsavedView } from '../../src-core/bridge/fileView'
import type { FileAsk } from '../useFile'
import { useFocusOn } from './useFocusOn'
import { useWords } from '../words'

interface Props {
  readonly bridge: Bridge
  readonly ask: FileAsk
  readonly busy: boolean
  /** Another one means that the lists may have changed. */
  readonly turn: string
}

/** What was never saved, and the visits that were open last. */
export function Beginning({ bridge, ask, busy, turn }: Props) {
  const { fileScreen } = useWords()
  const [view, setView] = useState<BeginningView | null>(null)
  useEffect(() => {
    let current = true
    bridge.beginning(null).then(
      (given) => current && setView(given),
      // The lists are a help; whatever else is asked next tells of a program that has ended.
      () => undefined,
    )
    return () => {
      current = false
    }
  }, [bridge, turn])
  if (view === null || view.recent.length + view.unsaved.length === 0) return null
  return (
    <>
      {view.unsaved.length > 0 && (
        <section className="beginning" aria-labelledby="unsaved-heading">
          <h3 id="unsaved-heading">{fileScreen.NEVER_SAVED}</h3>
          <p className="quiet">{fileScreen.NEVER_SAVED_LEAD}</p>
          <ul className="rows">
            {view.unsaved.map((one) => (
              <Unsaved key={one.mark} unsaved={one} ask={ask} busy={busy} />
            ))}
          </ul>
        </section>
      )}
      {view.recent.length > 0 && (
        <section className="beginning" aria-labelledby="recent-heading">
          <h3 id="recent-heading">{fileScreen.RECENT}</h3>
          <ul className="rows">
            {view.recent.map(({ mark, name, folder }) => (
              <li key={mark} className="log-row">
                <button
                  type="button"
                  className="link"
                  aria-disabled={busy}
                  onClick={() => busy || ask({ does: 'open-recent', mark })}
                >
                  {name}
                </button>
                <span className="quiet">{folder}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <p className="actions">
        <button
          type="button"
          className="link"
          aria-disabled={busy}
          onClick={() => busy || ask({ does: 'remove-traces' })}
        >
          {fileScreen.REMOVE_TRACES}
        </button>
      </p>
    </>
  )
}

function Unsaved(props: { readonly unsaved: UnsavedView; readonly ask: FileAsk; readonly busy: boolean }) {
  const { unsaved, ask, busy } = props
  const { fileScreen } = useWords()
  const { mark, name, when, handed, isProtected, holds } = unsaved
  const [asking, setAsking] = useState(false)
  const keepIt = useFocusOn<HTMLButtonElement>(asking)
  const called = fileScreen.unsavedName(name, when)
  return (
    <li className="log-row">
      <span>
        <b>{name ?? fileScreen.NAMELESS}</b>{' '}
        <span className="quiet">{fileScreen.unsavedText(when, handed, isProtected)}</span>
        {holds !== '' && <span className="held">{holds}</span>}
      </span>
      {asking ? (
        <span className="actions">
          {fileScreen.DISCARD_SURELY}
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'discard', mark })}>
            {fileScreen.DISCARD} <span className="unseen">{called}</span>
          </button>
          <button type="button" ref={keepIt} onClick={() => setAsking(false)}>
            {fileScreen.KEEP_IT}
          </button>
        </span>
      ) : (
        <span className="actions">
          <button type="button" aria-disabled={busy} onClick={() => busy || ask({ does: 'recover', mark })}>
            {fileScreen.RECOVER} <span className="unseen">{called}</span>
          </button>
          <button type="button" className="link" onClick={() => setAsking(true)}>
            {fileScreen.DISCARD_ASKING} <span className="unseen">{called}</span>
          </button>
        </span>
      )}
    </li>
  )
}
