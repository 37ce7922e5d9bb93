import type { Bridge } from '../src-core/bridge/contract'
import type { FieldFault, Fields, FormRequest } from '../src-core/bridge/forms/formRequest'
import type { FormsView } from '../src-core/bridge/forms/formsView'
import type { VisitHold } from './useVisit'
import { useWords } from './words'

/**
 * Sends a form; gives what is wrong with its fields. `said` is told once it was taken. `fieldsThen` fills it in once its
 * turn comes, from what the visit then holds.
 */
export type FormAsk = (
  form: FormRequest,
  said: string,
  fieldsThen?: (held: FormsView) => Fields,
) => Promise<readonly FieldFault[]>

export function useForm(bridge: Bridge, visit: VisitHold): FormAsk {
  const { visitForms } = useWords()
  return async (asked, said, fieldsThen) => {
    let found = NOT_TAKEN
    const entries = () => {
      const of = visit.now()?.visit.forms[asked.form]
      return Array.isArray(of) ? of.length : 0
    }
    const before = entries()
    await visit.run('computing', async () => {
      // An entry is named by its place, which may be another's by now.
      if (asked.place !== null && entries() !== before) {
        visit.tell({ problems: [{ about: null, message: visitForms.ENTRY_MOVED }], notices: [] })
        return null
      }
      const held = visit.now()?.visit.forms
      const form = held && fieldsThen ? { ...asked, fields: fieldsThen(held) } : asked
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
