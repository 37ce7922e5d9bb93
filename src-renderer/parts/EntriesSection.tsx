import { useContext, useRef, useState } from 'react'
import type { FormsView } from '../../src-core/bridge/forms/formsView'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { FormAsk } from '../useForm'
import { DraftsContext } from '../drafts'
import { EntryForm } from './EntryForm'
import { type FormSpec, withMeters } from './formSpecs'

interface Props {
  readonly spec: FormSpec
  readonly forms: FormsView
  /** What new entries begin with. */
  readonly unit: string
  /** Null where no log is opened. */
  readonly opened: OpenedView | null
  readonly busy: boolean
  readonly fill: FormAsk
}

/** A list that the person keeps: each entry can be changed or removed, and a form adds one. */
export function EntriesSection({ spec, forms, unit, opened, busy, fill }: Props) {
  const { form, title, one, lead, fields } = spec
  const heading = useRef<HTMLHeadingElement>(null)
  const entries = forms[form]
  const meters = opened?.meters ?? []
  const drafts = useContext(DraftsContext)
  const draftOf = (place: number) => `${form} ${place} ${entries[place].text}`
  const begun = entries.findIndex((_, place) => drafts.has(draftOf(place)))
  const [changing, setChanging] = useState<number | null>(begun < 0 ? null : begun)
  /** The button that was pressed is gone. */
  const close = () => {
    setChanging(null)
    heading.current?.focus()
  }
  const usesUnit = fields.some(({ name, choices }) => name === 'unit' && choices?.[0].value === 'mg/dL')
  return (
    <>
      <h2 id="section-heading" ref={heading} tabIndex={-1}>
        {title}
      </h2>
      <p className="quiet">{lead}</p>
      <ul className="rows entries">
        {entries.map((entry, place) => (
          <li key={`${place} ${entry.text}`}>
            <div className="entry">
              <span>
                {entry.text}
                {opened?.unknownMeters.includes(entry.fields.meter ?? '') && (
                  <span className="missing"> No log has a meter of this name: choose one with Change.</span>
                )}
              </span>
              <span>
                <button
                  type="button"
                  className="link"
                  aria-disabled={busy}
                  onClick={() => setChanging(place)}
                >
                  Change <span className="unseen">{entry.text}</span>
                </button>{' '}
                <button
                  type="button"
                  className="link"
                  aria-disabled={busy}
                  onClick={({ detail }) => {
                    // The second of a double click falls on the entry below, which has come up.
                    if (busy || detail > 1) return
                    close()
                    void fill({ form, place, fields: null }, `Removed: ${entry.text}.`)
                  }}
                >
                  Remove <span className="unseen">{entry.text}</span>
                </button>
              </span>
            </div>
            {changing === place && (
              <EntryForm
                label={`Change this ${one}`}
                draft={draftOf(place)}
                specs={withMeters(fields, meters, entry.fields.meter)}
                fields={entry.fields}
                action="Change it"
                busy={busy}
                onSend={async (filled) => {
                  const faults = await fill({ form, place, fields: filled }, 'Changed.')
                  if (faults.length === 0) close()
                  return faults
                }}
                onCancel={close}
              />
            )}
          </li>
        ))}
      </ul>
      {changing === null && (
        <>
          <h3>Add a {one}</h3>
          <EntryForm
            label={`Add a ${one}`}
            draft={form}
            specs={withMeters(fields, meters)}
            fields={usesUnit ? { unit } : {}}
            action="Add"
            busy={busy}
            onSend={(filled) =>
              fill(
                { form, place: null, fields: filled },
                `Added to ${title[0].toLowerCase()}${title.slice(1)}.`,
              )
            }
            onCancel={null}
          />
        </>
      )}
    </>
  )
}
