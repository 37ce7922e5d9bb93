import { useContext, useState } from 'react'
import type { ReadingView } from '../../src-core/bridge/readingView'
import type { FormAsk } from '../useForm'
import { DraftsContext } from '../drafts'
import { EntryForm } from './EntryForm'
import { typedFields } from './formSpecs'
import { useWords } from '../words'

interface Props {
  readonly view: ReadingView
  readonly fill: FormAsk
  readonly onTyped: () => void
}

/** A reading of a log that is known to be another: what it should be is typed, and the log's own stays. */
export function CorrectReading({ view, fill, onTyped }: Props) {
  const words = useWords()
  const { readingsScreen } = words
  const { key, typed, low, value } = view
  const draft = `correct ${JSON.stringify(key)}`
  const [open, setOpen] = useState(useContext(DraftsContext).has(draft))
  if (typed) {
    return (
      <p className="correct">
        {readingsScreen.TYPED_BY_HAND}{' '}
        <button type="button" className="link" onClick={onTyped}>
          {readingsScreen.CHANGE_TYPED}
        </button>
      </p>
    )
  }
  if (!open) {
    return (
      <p className="correct">
        <button type="button" className="link" onClick={() => setOpen(true)}>
          {readingsScreen.TYPE_ANOTHER}
        </button>
      </p>
    )
  }
  const [date, time = ''] = key.at.split('T')
  return (
    <div className="correct">
      <p className="quiet">{readingsScreen.whatTypingDoes(value, low)}</p>
      <EntryForm
        label={readingsScreen.SHOULD_BE}
        draft={draft}
        specs={typedFields(words)}
        fields={{ date, time: time.slice(0, 5), unit: key.unit }}
        action={readingsScreen.ADD_AS_TYPED}
        onSend={async (fields) => {
          const faults = await fill(
            { form: 'typed', place: null, fields, corrects: key },
            readingsScreen.ADDED_AS_TYPED,
          )
          if (faults.length === 0) setOpen(false)
          return faults
        }}
        onCancel={() => setOpen(false)}
      />
    </div>
  )
}
