/**
 * Gives what a stage of the analysis computes. `of` is everything that it depends on: where all of it is as before, the
 * earlier result may be given, the very same object, so nobody may change it.
 */
export type Keep = <R>(stage: string, of: readonly unknown[], compute: () => R) => R

/** Keeps nothing. */
export const afresh: Keep = (_stage, _of, compute) => compute()

export interface Keeper {
  readonly keep: Keep
  /** Forgets the stages that were not asked for since the last call. */
  readonly forgetUnused: () => void
}

/** Keeps the latest result of each stage. */
export function createKeeper(): Keeper {
  const kept = new Map<string, { readonly of: readonly unknown[]; readonly result: unknown }>()
  const used = new Set<string>()
  return {
    keep<R>(stage: string, of: readonly unknown[], compute: () => R): R {
      used.add(stage)
      const earlier = kept.get(stage)
      if (earlier !== undefined && sameElements(earlier.of, of)) return earlier.result as R
      const result = compute()
      kept.set(stage, { of, result })
      return result
    },
    forgetUnused() {
      for (const stage of kept.keys()) if (!used.has(stage)) kept.delete(stage)
      used.clear()
    },
  }
}

/** Whether two values are one, or arrays of the same ones. */
function isSame(a: unknown, b: unknown): boolean {
  return Object.is(a, b) || (Array.isArray(a) && Array.isArray(b) && sameElements(a, b))
}

function sameElements(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((element, i) => isSame(element, b[i]))
}
