import { useEffect, useRef } from 'react'
import type { Problem } from '../../src-core/bridge/visitState'

interface Props {
  readonly problems: readonly Problem[]
  readonly fault: string
}

/** What was not done, and why; it comes into view. */
export function Problems({ problems, fault }: Props) {
  const told = useRef<HTMLDivElement>(null)
  useEffect(() => {
    // A browser may answer with a promise, which is no clean-up.
    void told.current?.scrollIntoView({ block: 'nearest' })
  }, [problems, fault])
  if (problems.length === 0 && fault === '') return null
  return (
    <div ref={told} className="fault" role="alert">
      {fault !== '' && <p>{fault}</p>}
      {problems.map(({ about, message }, position) => (
        <p key={position}>
          {about !== null && <b>{about}: </b>}
          {message}
        </p>
      ))}
    </div>
  )
}
