import { type ReactNode, useEffect, useRef } from 'react'
import type { DoubtView, ReadingView } from '../../src-core/bridge/readingView'
import type { VisitHold } from '../useVisit'
import { DecisionForm } from './DecisionForm'
import { EffectTable } from './EffectTable'
import { Picture } from './Picture'
import { useWords } from '../words'

interface Props {
  readonly view: ReadingView
  readonly visit: VisitHold
  /** Null at the end of the list. */
  readonly onNext: (() => void) | null
  readonly nextName: string
  readonly onDecided: () => void
  /** How often the next reading was gone to: then the heading takes the focus once it is there. */
  readonly gone: number
  /** How far the person has come with the list; '' where there is nothing to say. */
  readonly told: string
  /** What else can be done with it. */
  readonly children?: ReactNode
}

/** The reading in hand: the hours around it, why it is doubted, what leaving it out does, and the decision. */
export function ReadingDetail(props: Props) {
  const { view, visit, onNext, onDecided, gone, nextName, told, children } = props
  const { lineBreaks, readingsScreen } = useWords()
  const heading = useRef<HTMLHeadingElement>(null)
  const focusedAfter = useRef(gone)
  useEffect(() => {
    if (focusedAfter.current === gone) return
    focusedAfter.current = gone
    heading.current?.scrollIntoView()
    heading.current?.focus({ preventScroll: true })
    // eslint-disable-next-line react-hooks/exhaustive-deps -- not before the next reading is there
  }, [view.index])
  const { value, unit, moment, details, low, doubt } = view
  return (
    <section className="detail" aria-labelledby="reading-heading">
      <h2 id="reading-heading" ref={heading} tabIndex={-1}>
        {low && (
          <>
            <span className="square" aria-hidden="true" />
            <span className="unseen">{readingsScreen.HEARD_LOW} </span>
          </>
        )}
        {readingsScreen.valueAt(value, value === 'LO' || value === 'HI' ? '' : unit, moment)}
      </h2>
      <p className="quiet">{details.join(' · ')}</p>
      <div className="detail-columns">
        <div>
          <Picture
            picture={view.picture}
            name={readingsScreen.HOURS_AROUND}
            table={{ rows: view.around, caption: readingsScreen.aroundCaption(unit) }}
          />
        </div>
        <div className="detail-side">
          {doubt && <Why doubt={doubt} />}
          {view.anothers && (
            <>
              <h3>{view.anothers.headline}</h3>
              <p>{lineBreaks.unbroken(view.anothers.why)}</p>
            </>
          )}
          {!doubt && !view.anothers && <p>{readingsScreen.NOT_MARKED}</p>}
          <EffectTable effect={view.effect} />
        </div>
        {doubt && <Advice doubt={doubt} />}
        <div className="further">
          <p className="quiet">{view.leavingOut}</p>
          {children}
        </div>
      </div>
      <DecisionForm
        key={`decide ${view.index}`}
        view={view}
        visit={visit}
        onNext={onNext}
        onDecided={onDecided}
        nextName={nextName}
        told={told}
      />
    </section>
  )
}

function Advice({ doubt: { advice, afterwards } }: { readonly doubt: DoubtView }) {
  const { lineBreaks, readingsScreen } = useWords()
  const { unbroken } = lineBreaks
  return (
    <div className="advice">
      {advice && (
        <>
          <p>
            <b>{readingsScreen.FITS_BEST}</b> {unbroken(advice.fitsBest)}
          </p>
          <p>
            <b>{readingsScreen.ALSO_POSSIBLE}</b> {unbroken(advice.alsoPossible)}
          </p>
          <p>
            <b>{readingsScreen.NEXT_TIME}</b> {advice.nextTime}
          </p>
        </>
      )}
      {afterwards && <p>{unbroken(afterwards)}</p>}
    </div>
  )
}

function Why({ doubt }: { readonly doubt: DoubtView }) {
  const { lineBreaks, readingsScreen } = useWords()
  const { unbroken } = lineBreaks
  return (
    <>
      <h3>{doubt.headline}</h3>
      {doubt.confirmed !== null && (
        <p>
          <b>{unbroken(doubt.confirmed)}</b>
        </p>
      )}
      <p>{unbroken(doubt.meaning)}</p>
      <h3>{readingsScreen.WHY_DOUBTED}</h3>
      <ul className="why">
        {doubt.reasons.map((reason) => (
          <li key={reason}>{unbroken(reason)}</li>
        ))}
      </ul>
    </>
  )
}
