import { useContext, useEffect, useRef, useSyncExternalStore } from 'react'
import type { FieldFault, Fields } from '../src-core/bridge/forms/formRequest'
import { FieldsContext } from './fieldsInHand'
import { onceReleased } from './pointerPress'

interface Options {
  /** What the fields are for: what was written is there again when the person comes back. */
  readonly of: string
  /** What the fields are called. */
  readonly name: string
  /** As they stand in the visit. */
  readonly fields: Fields
  /** Fields with something that the browser gives nothing of, such as half a day, by what is sent for it. */
  readonly half?: () => Fields
  /** What is wrong before anything is sent. */
  readonly check?: (fields: Fields) => readonly FieldFault[]
  /**
   * Takes all fields into the visit; gives what is wrong with them, none where they were taken. `written`: those that the
   * person wrote; the visit may hold others for the rest once they are taken in.
   */
  readonly send: (fields: Fields, written: Fields) => Promise<readonly FieldFault[]>
}

export interface LiveFields {
  /** As they are shown: as written, else as in the visit. */
  readonly values: Fields
  readonly faults: readonly FieldFault[]
  /** Whether all that was written is part of the visit. */
  readonly isTaken: boolean
  readonly write: (name: string, value: string) => void
  /** Choices are taken in at once. */
  readonly choose: (chosen: Fields) => void
  /** Text is taken in when its field is left. */
  readonly blur: () => void
  readonly leave: () => void
  /** Back to what stands in the visit. */
  readonly forget: () => void
}

/**
 * Fields that are part of the visit: the one rule of the window is that a choice applies at once, text when its field is
 * left; both are steps that undo takes back. What cannot be taken in stays written, with what is wrong.
 */
export function useLiveFields({ of, name, fields, half, check, send }: Options): LiveFields {
  const inHand = useContext(FieldsContext)
  const now = () => inHand.get(of)
  const written = useSyncExternalStore(inHand.onChange, now, now)

  function put(changed: Fields): void {
    const before = inHand.get(of)
    const faults = before?.faults.filter(({ field }) => !(field in changed)) ?? []
    inHand.set(of, { fields: { ...before?.fields, ...changed }, faults, sent: null, name })
  }

  function leave(): void {
    const halves = half?.() ?? {}
    const isHalf = Object.keys(halves).length > 0
    const before = inHand.get(of) ?? (isHalf ? { fields: {}, faults: [], sent: null, name } : undefined)
    if (before === undefined || before.sent !== null || !inHand.isCurrent()) return
    if (!isHalf && isSame(before.fields, fields)) return inHand.set(of, null)
    const byHand = { ...before.fields, ...halves }
    const all = { ...fields, ...byHand }
    const wrong = check?.(all) ?? []
    if (wrong.length > 0) return inHand.set(of, { ...before, faults: wrong })
    const sent = Symbol()
    inHand.set(of, { ...before, faults: [], sent })
    void send(all, byHand).then((faults) => {
      const now = inHand.get(of)
      if (now === undefined) return
      if (faults.length > 0) {
        // What was written since is sent by itself, with its own faults.
        if (now.sent === sent) inHand.set(of, { ...now, faults, sent: null })
        return
      }
      const since = Object.entries(now.fields).filter(([field, value]) => all[field] !== value)
      inHand.set(of, since.length === 0 ? null : { ...now, fields: Object.fromEntries(since) })
    })
  }

  const last = useRef(leave)
  useEffect(() => {
    last.current = leave
  })
  useEffect(() => {
    const left = () => last.current()
    const forgotten = inHand.register(left)
    return () => {
      forgotten()
      left()
    }
  }, [inHand])

  return {
    values: { ...fields, ...written?.fields },
    faults: written?.faults ?? [],
    isTaken: written === undefined,
    write: (field, value) => put({ [field]: value }),
    choose(chosen) {
      put(chosen)
      leave()
    },
    blur: () => onceReleased(() => last.current()),
    leave,
    forget: () => inHand.set(of, null),
  }
}

function isSame(written: Fields, fields: Fields): boolean {
  return Object.entries(written).every(([name, value]) => value.trim() === (fields[name] ?? '').trim())
}
