import { localForms } from '../localForms'

/** The language of the texts, as BCP 47 has it. */
export const LANGUAGE = 'en-GB'

export const FORMS = localForms(LANGUAGE)
