import { useEffect, useState } from 'react'
import type { Bridge, PdfOutcome } from '../src-core/bridge/contract'
import type { PdfPages } from './pdfPages'
import { asked, type PagesChosen } from './usePagesOut'
import { faultSentence } from './useVisit'
import { useWords } from './words'

export interface ShownPdf {
  /** Of which state of the visit these are the pages. */
  readonly revision: number
  readonly pages: PdfPages
}

/**
 * The very PDF of the visit as it stands, opened, with what was chosen to be printed and attached; `shown` is of the
 * revision before until the new one is there.
 */
export function usePdf(bridge: Bridge, revision: number, chosen: PagesChosen, onStale: () => void) {
  const words = useWords()
  const [shown, setShown] = useState<ShownPdf | null>(null)
  const [failed, setFailed] = useState({ revision: -1, fault: '' })
  /** How often it was tried. */
  const [tries, setTries] = useState(0)
  useEffect(() => {
    let current = true
    async function open(made: PdfOutcome) {
      if (!current) return
      if (made.kind === 'stale') return onStale()
      // eslint-disable-next-line no-restricted-syntax -- loaded late for its size; its own imports stand at its head
      const { openPdf } = await import('./pdfPages')
      const pages = await openPdf(made.bytes)
      if (!current) return void pages.close()
      setShown({ revision: made.revision, pages })
    }
    bridge
      .makePdf({ revision, ...asked(chosen) })
      .then(open)
      .catch((error: unknown) => {
        if (current) setFailed({ revision, fault: faultSentence(words, error) })
      })
    return () => {
      current = false
    }
    // eslint-disable-next-line react-hooks/exhaustive-deps -- the pages depend on the visit alone
  }, [bridge, revision, chosen, tries])
  useEffect(() => () => void shown?.pages.close(), [shown])
  return {
    shown,
    fault: failed.revision === revision ? failed.fault : '',
    again: () => {
      setFailed({ revision: -1, fault: '' })
      setTries(tries + 1)
    },
  }
}
