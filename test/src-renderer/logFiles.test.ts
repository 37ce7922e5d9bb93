import { describe, expect, it, vi } from 'vitest'
import { ENGLISH } from '../../src-core/wording/english'
import { checkLogFiles, LogFileError, readLogFiles } from '../../src-renderer/logFiles'

const MB = 1024 * 1024

/** A file that only tells its size; it must not be read. */
function fileOfSize(size: number) {
  const arrayBuffer = vi.fn<() => Promise<ArrayBuffer>>()
  return { file: { name: 'large.csv', size, arrayBuffer } as unknown as File, arrayBuffer }
}

describe('files that were chosen', () => {
  it('are read in the order of their choice, byte for byte', async () => {
    const slow = new File([new Uint8Array([1, 2])], 'first.csv')
    let give: (bytes: ArrayBuffer) => void = () => undefined
    slow.arrayBuffer = () => new Promise((resolve) => (give = resolve))
    const reading = readLogFiles(ENGLISH, [slow, new File([new Uint8Array([0, 255])], 'second.csv')])
    // The first is ready last.
    await new File(['x'], 'x').arrayBuffer()
    give(new Uint8Array([1, 2]).buffer)
    expect(await reading).toEqual({
      logs: [
        { name: 'first.csv', bytes: new Uint8Array([1, 2]) },
        { name: 'second.csv', bytes: new Uint8Array([0, 255]) },
      ],
      problems: [],
    })
  })

  it('may be as many and as large as one message holds', async () => {
    const many = Array.from({ length: 50 }, (_, i) => new File(['a'], `${i}.csv`))
    expect((await readLogFiles(ENGLISH, many)).logs).toHaveLength(50)
    const { file, arrayBuffer } = fileOfSize(100 * MB)
    arrayBuffer.mockResolvedValue(new ArrayBuffer(1))
    expect((await readLogFiles(ENGLISH, [file])).logs).toHaveLength(1)
  })

  it('are refused before one of them is read where they are too many together', async () => {
    const { file, arrayBuffer } = fileOfSize(1)
    const files = Array.from({ length: 51 }, () => file)
    await expect(readLogFiles(ENGLISH, files)).rejects.toThrow(
      new LogFileError('The window takes up to 50 logs at a time.'),
    )
    expect(arrayBuffer).not.toHaveBeenCalled()
  })

  it('are refused before one of them is read where they are too large together', async () => {
    const { file, arrayBuffer } = fileOfSize(100 * MB + 1)
    await expect(readLogFiles(ENGLISH, [file])).rejects.toThrow(
      new LogFileError('The window takes up to 100 MB of logs at a time; npm run report takes more.'),
    )
    expect(arrayBuffer).not.toHaveBeenCalled()
  })

  it('that cannot be opened, such as a folder, are named, and the others taken', async () => {
    const folder = new File([], 'meters')
    const gone = () => Promise.reject(new DOMException('gone', 'NotFoundError'))
    folder.arrayBuffer = gone
    folder.slice = () => Object.assign(new Blob(), { arrayBuffer: gone })
    const log = new File(['a'], 'a.csv')
    const message = 'It could not be opened. If it is a folder, choose the files inside it.'
    const problems = [{ about: 'meters', message }]
    expect(await checkLogFiles(ENGLISH, [folder, log])).toEqual({ logs: [log], problems })
    expect(await readLogFiles(ENGLISH, [folder, log])).toMatchObject({ logs: [{ name: 'a.csv' }], problems })
    for (const taking of [checkLogFiles, readLogFiles]) {
      await expect(taking(ENGLISH, [folder])).rejects.toThrow(new LogFileError(`meters: ${message}`))
    }
  })
})
