import { afterEach, describe, expect, it, vi } from 'vitest'
import { savePdf } from '../../src-renderer/savePdf'

afterEach(() => {
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
  vi.useRealTimers()
})

describe('a finished PDF', () => {
  it('is offered under its name from the page’s own memory, which is given back later', async () => {
    vi.useFakeTimers()
    const blobs: Blob[] = []
    vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
      blobs.push(blob as Blob)
      return 'blob:own/1'
    })
    const revoke = vi.spyOn(URL, 'revokeObjectURL').mockImplementation(() => undefined)
    const clicked: unknown[] = []
    vi.stubGlobal('document', {
      createElement: (name: string) => {
        const link = { name, href: '', download: '', click: () => clicked.push({ ...link, click: null }) }
        return link
      },
    })

    savePdf('pages.pdf', new Uint8Array([37, 80, 68, 70]))

    expect(clicked).toEqual([{ name: 'a', href: 'blob:own/1', download: 'pages.pdf', click: null }])
    expect(blobs.map(({ type }) => type)).toEqual(['application/pdf'])
    expect(new Uint8Array(await blobs[0].arrayBuffer())).toEqual(new Uint8Array([37, 80, 68, 70]))
    expect(revoke).not.toHaveBeenCalled()
    vi.runAllTimers()
    expect(revoke).toHaveBeenCalledExactlyOnceWith('blob:own/1')
  })
})
