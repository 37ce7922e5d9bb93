import { useEffect, useState } from 'react'
import type { Bridge, PdfOutcome } from '../src-core/bridge/contract'
import type { PdfPages } from './pdfPages'
import { faultSentence } from './useVisit'

export interface ShownPdf {
  readonly fileName: string
  /** As they are saved; the library that draws has a copy. */
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly pages: PdfPages
}

/** The very PDF of the visit as it stands, opened; what stood before stays until the new one is there. */
export function usePdf(bridge: Bridge, revision: number, onStale: () => void) {
  const [shown, setShown] = useState<ShownPdf | null>(null)
  const [fault, setFault] = useState('')
  useEffect(() => {
    let current = true
    async function open(made: PdfOutcome) {
      if (made.kind === 'stale') return onStale()
      // eslint-disable-next-line no-restricted-syntax -- loaded late for its size; its own imports stand at its head
      const { openPdf } = await import('./pdfPages')
      const pages = await openPdf(made.bytes.slice())
      if (!current) return pages.close()
      setFault('')
      setShown((before) => {
        before?.pages.close()
        return { ...made, pages }
      })
    }
    bridge
      .makePdf({ revision })
      .then(open)
      .catch((error: unknown) => {
        if (current) setFault(faultSentence(error))
      })
    return () => {
      current = false
    }
    // eslint-disable-next-line react-hooks/exhaustive-deps -- the pages depend on the visit alone
  }, [bridge, revision])
  return { shown, fault }
}
