import { createContext } from 'react'

/** What was written into fields and not taken in yet, by what it is for: kept while the window is open, in memory alone. */
export type Drafts = Map<string, Readonly<Record<string, string>>>

/** Those of the visit in hand. */
export const DraftsContext = createContext<Drafts>(new Map())
