import { useRef, useState } from 'react'
import type { Bridge, PdfMade, PrintOutcome, Stale } from '../src-core/bridge/contract'
import type { Printed } from '../src-core/model/printed'
import { printPdf } from './printPdf'
import { savePdf } from './savePdf'
import type { VisitHold } from './useVisit'
import { useWords } from './words'

/** What is printed, and whether what is saved carries the readings. */
export interface PagesChosen extends Required<Printed> {
  readonly attach: boolean
}

/** What the pages are made of: the notes are not carried either where they are not printed. */
export function asked({ attach, ...printed }: PagesChosen) {
  return { printed, attach: attach && !printed.withoutNotes }
}

/** The ways of the pages out of the window. */
export interface PagesOut {
  readonly chosen: PagesChosen
  readonly choose: (chosen: Partial<PagesChosen>) => void
  readonly save: () => void
  readonly print: () => void
}

const USUAL: PagesChosen = { onePage: false, wholeMethod: false, withoutNotes: false, attach: false }

/**
 * What is saved or printed is of the visit as it stands once all that was asked for before is done; it is not
 * made where something of that could not be done. `leaveAll`: takes in what stands in fields, false where it cannot be.
 */
export function usePagesOut(bridge: Bridge, visit: VisitHold, leaveAll: () => boolean): PagesOut {
  const { pagesScreen, windowWork } = useWords()
  const [chosen, setChosen] = useState<PagesChosen>(USUAL)
  const waiting = useRef(new Set<string>())

  /** `make` asks for the pages of a state, `hand` gives them out and what is told of it. */
  function out<T extends { readonly kind: string }>(
    way: string,
    make: (revision: number) => Promise<T | Stale>,
    hand: (made: T, paper: 'A4' | 'Letter') => string | Promise<string>,
  ) {
    // The second of a double click asks for nothing more.
    if (waiting.current.has(way) || !leaveAll()) return
    waiting.current.add(way)
    const work = async () => {
      const state = visit.now()
      const problem = (message: string) => visit.tell({ problems: [{ about: null, message }], notices: [] })
      if (state?.report.kind !== 'opened') {
        problem(pagesScreen.NO_PAGES)
        return null
      }
      const made = await make(state.revision)
      if (isStale(made)) {
        problem(windowWork.CHANGED_ELSEWHERE)
        visit.refresh()
        return null
      }
      return hand(made, state.visit.paper)
    }
    const done = visit.run('pages', work, { onlyAfterAll: true })
    void done.finally(() => waiting.current.delete(way))
  }

  return {
    chosen,
    choose: (part) => setChosen({ ...chosen, ...part }),
    save: () =>
      out<PdfMade>(
        'save',
        (revision) => bridge.makePdf({ revision, ...asked(chosen) }),
        ({ fileName, bytes }) => {
          savePdf(fileName, bytes)
          return pagesScreen.madeText(fileName, asked(chosen).attach)
        },
      ),
    print: () =>
      out<Exclude<PrintOutcome, Stale>>(
        'print',
        (revision) => bridge.print({ revision, printed: asked(chosen).printed }),
        async (printed, paper) => {
          if (printed.kind === 'opened') return pagesScreen.openedToPrintText(paper)
          if (printed.kind === 'not-opened') return pagesScreen.NOT_OPENED_TO_PRINT
          if (await printPdf(printed.bytes.slice())) return pagesScreen.printText(paper)
          savePdf(printed.fileName, printed.bytes)
          return pagesScreen.savedToPrintText(printed.fileName)
        },
      ),
  }
}

function isStale(made: { readonly kind: string }): made is Stale {
  return made.kind === 'stale'
}
