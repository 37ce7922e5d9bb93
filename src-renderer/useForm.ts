import type { Bridge } from '../src-core/bridge/contract'
import type { FieldFault, FormRequest } from '../src-core/bridge/forms/formRequest'
import type { VisitHold } from './useVisit'

/** Sends a form; gives what is wrong with its fields. `said` is told once it was taken. */
export type FormAsk = (form: FormRequest, said: string) => Promise<readonly FieldFault[]>

export function useForm(bridge: Bridge, visit: VisitHold): FormAsk {
  return async (form, said) => {
    let found = NOT_TAKEN
    await visit.run('computing', async () => {
      const outcome = await bridge.form({ revision: visit.now()?.revision ?? 0, form })
      visit.show(outcome.state)
      visit.tell(outcome)
      if (outcome.problems.length === 0 && !outcome.cancelled) found = outcome.faults
      return found.length === 0 ? said : null
    })
    return found
  }
}

/** What was not taken is told at the top of the window, and what was written stays. */
export const NOT_TAKEN: readonly FieldFault[] = [{ field: '', message: '' }]
