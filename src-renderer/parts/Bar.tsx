import type { WindowState } from '../windowState'

interface Props {
  readonly busy: WindowState['busy']
  readonly done: string
  /** Null before any log was chosen: the start has a button of its own. */
  readonly onAdd: (() => void) | null
  /** Null where nothing is open. */
  readonly onMakePdf: (() => void) | null
}

/** The bar at the top: the program's name, what it is doing, and what is always in reach. */
export function Bar({ busy, done, onAdd, onMakePdf }: Props) {
  return (
    <header className="bar">
      <h1>Visit report</h1>
      <p className="status" role="status">
        {busy === 'reading' ? 'Reading …' : busy === 'making-pdf' ? 'Making the pages …' : done}
      </p>
      {onAdd && (
        <button type="button" aria-disabled={busy !== null} onClick={onAdd}>
          Add logs
        </button>
      )}
      {onMakePdf && (
        <button type="button" className="main-action" aria-disabled={busy !== null} onClick={onMakePdf}>
          Print or save PDF
        </button>
      )}
    </header>
  )
}
