import { useContext, useState } from 'react'
import type { ReadingView } from '../../src-core/bridge/readingView'
import type { FormAsk } from '../useForm'
import { DraftsContext } from '../drafts'
import { EntryForm } from './EntryForm'
import { FORM_SPECS } from './formSpecs'

interface Props {
  readonly view: ReadingView
  readonly fill: FormAsk
  readonly onTyped: () => void
}

const FIELDS = FORM_SPECS.find(({ form }) => form === 'typed')?.fields ?? []

/** A reading of a log that is known to be another: what it should be is typed, and the log's own stays. */
export function CorrectReading({ view, fill, onTyped }: Props) {
  const { key, typed, low, value } = view
  const draft = `correct ${JSON.stringify(key)}`
  const [open, setOpen] = useState(useContext(DraftsContext).has(draft))
  if (typed) {
    return (
      <p className="correct">
        Typed by hand.{' '}
        <button type="button" className="link" onClick={onTyped}>
          Change or remove it
        </button>
      </p>
    )
  }
  if (!open) {
    return (
      <p className="correct">
        <button type="button" className="link" onClick={() => setOpen(true)}>
          Type what it should be …
        </button>
      </p>
    )
  }
  const [date, time = ''] = key.at.split('T')
  return (
    <div className="correct">
      <p className="quiet">
        What you type is added and marked as typed. {value} stays as the meter logged it, left out of averages
        {low && ', and stays among the lows'}.
      </p>
      <EntryForm
        label="What it should be"
        draft={draft}
        specs={FIELDS}
        fields={{ date, time: time.slice(0, 5), unit: key.unit }}
        action="Add as typed"
        onSend={async (fields) => {
          const faults = await fill({ form: 'typed', place: null, fields, corrects: key }, 'Added as typed.')
          if (faults.length === 0) setOpen(false)
          return faults
        }}
        onCancel={() => setOpen(false)}
      />
    </div>
  )
}
