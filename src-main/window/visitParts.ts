import type { Visit, VisitLog } from '../../src-core/visit/visit'

// A visit on its way to the thread that computes: only what changed is sent, a log's bytes once, so that the thread
// sees what stayed the same and computes it no second time.

/** The parts of a visit that changed; logs without bytes were sent before. */
export interface VisitParts extends Partial<Omit<Visit, 'logs'>> {
  readonly logs?: readonly SentLog[]
}

type SentLog = Omit<VisitLog, 'bytes'> & { readonly bytes?: Uint8Array }

/** Tells what of a visit changed since the one before. */
export function partsSender(): (visit: Visit) => VisitParts {
  let before: Visit | null = null
  const sent = new Set<string>()
  return (visit) => {
    const { logs, ...others } = visit
    const parts: VisitParts = {
      ...Object.fromEntries(
        Object.entries(others).filter(([name, part]) => before?.[name as keyof Visit] !== part),
      ),
      ...(before?.logs !== logs && { logs: logs.map(sentLog) }),
    }
    before = visit
    return parts
  }

  function sentLog(log: VisitLog): SentLog {
    const { bytes, ...others } = log
    const known = sent.has(log.sha256)
    sent.add(log.sha256)
    return known ? others : { ...others, bytes }
  }
}

/** Puts the visit together again; what did not change is the very same object. */
export function partsReceiver(empty: Visit): (parts: VisitParts) => Visit {
  let visit = empty
  const held = new Map<string, VisitLog>()
  return ({ logs, ...others }) => {
    visit = { ...visit, ...others, ...(logs && { logs: logs.map(receivedLog) }) }
    return visit
  }

  function receivedLog(log: SentLog): VisitLog {
    const before = held.get(log.sha256)
    const bytes = before?.bytes ?? log.bytes
    if (bytes === undefined) throw new Error('A log came without its bytes')
    if (
      before &&
      before.name === log.name &&
      JSON.stringify(before.answers) === JSON.stringify(log.answers)
    ) {
      return before
    }
    const received = { ...log, bytes }
    held.set(log.sha256, received)
    return received
  }
}
