import type { Change, Paper } from '../windowState'

const PAPERS: readonly Paper[] = ['A4', 'Letter']

interface Props {
  readonly paper: Paper
  readonly label: string
  readonly change: (change: Change) => void
}

/** What the printed pages need to be told. */
export function Pages({ paper, label, change }: Props) {
  return (
    <section className="pages" aria-labelledby="pages-heading">
      <h3 id="pages-heading">Pages</h3>
      <p>
        <label htmlFor="label">At the head of each page</label>
        <input
          id="label"
          type="text"
          maxLength={200}
          value={label}
          aria-describedby="label-hint"
          onChange={(event) => change({ kind: 'label-written', label: event.currentTarget.value })}
        />
        <span id="label-hint" className="quiet">
          May stay empty: the pages then leave a line for name and date of birth.
        </span>
      </p>
      <p>
        <label htmlFor="paper">Paper</label>
        <select
          id="paper"
          value={paper}
          onChange={(event) => {
            const chosen = PAPERS.find((name) => name === event.currentTarget.value)
            if (chosen) change({ kind: 'paper-chosen', paper: chosen })
          }}
        >
          {PAPERS.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </p>
    </section>
  )
}
