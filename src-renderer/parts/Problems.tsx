import type { Problem } from '../../src-core/bridge/contract'

interface Props {
  readonly problems: readonly Problem[]
  readonly fault: string
}

/** What was not done, and why. */
export function Problems({ problems, fault }: Props) {
  if (problems.length === 0 && fault === '') return null
  return (
    <div className="fault" role="alert">
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
