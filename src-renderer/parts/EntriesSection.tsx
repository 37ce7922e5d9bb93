import { useContext, useEffect, useRef, useState } from 'react'
import type { FormsView } from '../../src-core/bridge/forms/formsView'
import type { OpenedView } from '../../src-core/bridge/visitView'
import type { FormAsk } from '../useForm'
import { FieldsContext } from '../fieldsInHand'
import { EntryForm } from './EntryForm'
import { type FormSpec, withMeters } from './formSpecs'
import { LiveForm } from './LiveForm'
import { useWords } from '../words'

interface Props {
  readonly spec: FormSpec
  readonly forms: FormsView
  /** What new entries begin with. */
  readonly unit: string
  /** Null where no log is opened. */
  readonly opened: OpenedView | null
  readonly fill: FormAsk
}

/** A list that the person keeps: each entry can be changed in place or removed, and a form adds one. */
export function EntriesSection({ spec, forms, unit, opened, fill }: Props) {
  const words = useWords()
  const { visitForms } = words
  const { form, title, lead, thisOne, addOne, added, fields } = spec
  const heading = useRef<HTMLHeadingElement>(null)
  const entries = forms[form]
  const meters = opened?.meters ?? []
  const inHand = useContext(FieldsContext)
  const keyOf = (place: number) => `${form} ${place}`
  const begun = entries.findIndex((_, place) => inHand.get(keyOf(place)) !== undefined)
  const [changing, setChanging] = useState<number | null>(begun < 0 ? null : begun)
  const open = changing !== null && changing < entries.length ? changing : null
  const count = useRef(entries.length)
  // An entry that came or went moves the others: what was written of one is not another's.
  useEffect(() => {
    if (count.current === entries.length) return
    for (let place = 0; place <= count.current; place++) inHand.set(`${form} ${place}`, null)
    count.current = entries.length
    setChanging(null)
  }, [entries.length, form, inHand])
  /** The button that was pressed may be gone. */
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
          <li key={place}>
            <div className="entry">
              <span>
                {entry.text}
                {opened?.unknownMeters.includes(entry.fields.meter ?? '') && (
                  <span className="missing"> {visitForms.UNKNOWN_METER}</span>
                )}
              </span>
              <span>
                <button
                  type="button"
                  className="link"
                  aria-expanded={open === place}
                  onClick={() => (open === place ? close() : setChanging(place))}
                >
                  {open === place ? visitForms.DONE : visitForms.CHANGE}{' '}
                  <span className="unseen">{entry.text}</span>
                </button>{' '}
                <button
                  type="button"
                  className="link"
                  onClick={({ detail }) => {
                    // The second of a double click falls on the entry below, which has come up.
                    if (detail > 1) return
                    close()
                    void fill({ form, place, fields: null }, visitForms.removedText(entry.text))
                  }}
                >
                  {visitForms.REMOVE} <span className="unseen">{entry.text}</span>
                </button>
              </span>
            </div>
            {open === place && (
              <LiveForm
                label={thisOne}
                of={keyOf(place)}
                specs={withMeters(words, fields, meters, entry.fields.meter)}
                forms={forms}
                held={(then) => then[form][place].fields}
                isOpened
                onSend={(then) => fill({ form, place, fields: {} }, visitForms.CHANGED, then)}
              />
            )}
          </li>
        ))}
      </ul>
      {open === null && (
        <>
          <h3>{addOne}</h3>
          <EntryForm
            label={addOne}
            draft={form}
            specs={withMeters(words, fields, meters)}
            fields={usesUnit ? { unit } : {}}
            action={visitForms.ADD}
            onSend={(filled) => fill({ form, place: null, fields: filled }, added)}
            onCancel={null}
          />
        </>
      )}
    </>
  )
}
