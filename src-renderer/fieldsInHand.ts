import { createContext } from 'react'
import type { FieldFault, Fields } from '../src-core/bridge/forms/formRequest'

/** What was written into fields and is not part of the visit yet. */
export interface Written {
  readonly fields: Fields
  readonly faults: readonly FieldFault[]
  /** While it is on its way into the visit, which way that is; else null. */
  readonly sent: symbol | null
  /** What the fields are called, to be told where they are not seen. */
  readonly name: string
}

/** The fields of the window whose text becomes part of the visit once they are left, seen or not. */
export interface FieldsInHand {
  readonly get: (key: string) => Written | undefined
  readonly set: (key: string, written: Written | null) => void
  readonly onChange: (does: () => void) => () => void
  /** `leave` takes in what these fields hold; gives the way to forget them. */
  readonly register: (leave: () => void) => () => void
  /** Takes in what all fields hold; the name of the first that cannot be, null where all can. */
  readonly leaveAll: () => string | null
  /** Whether the visit that the fields belong to is still the one in the window. */
  readonly isCurrent: () => boolean
}

export function createFieldsInHand(isCurrent: () => boolean): FieldsInHand {
  const held = new Map<string, Written>()
  const listeners = new Set<() => void>()
  const seen = new Set<() => void>()
  return {
    get: (key) => held.get(key),
    set(key, written) {
      if (written === null) held.delete(key)
      else held.set(key, written)
      for (const does of listeners) does()
    },
    onChange(does) {
      listeners.add(does)
      return () => void listeners.delete(does)
    },
    register(leave) {
      seen.add(leave)
      return () => void seen.delete(leave)
    },
    leaveAll() {
      for (const leave of seen) leave()
      return [...held.values()].find(({ sent }) => sent === null)?.name ?? null
    },
    isCurrent,
  }
}

/** Those of the visit in hand. */
export const FieldsContext = createContext<FieldsInHand>(createFieldsInHand(() => true))
