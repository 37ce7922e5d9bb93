import { z } from 'zod'
import { MESSAGE_LIMITS } from './limits'

// What the window may ask about the file of its visit. A file is never named by a path: what the program listed is
// named by its mark, what the person chooses anew is chosen in the desktop's own dialog.

const mark = z.string().regex(/^[0-9a-f]{64}$/)
const passphrase = z.string().min(1).max(MESSAGE_LIMITS.passphrase)

export const FILE_REQUEST = z.discriminatedUnion('does', [
  /** A visit with nothing in it. */
  z.strictObject({ does: z.literal('begin') }),
  /** Asks for a visit file in the desktop's own dialog. */
  z.strictObject({ does: z.literal('choose') }),
  z.strictObject({ does: z.literal('open-recent'), mark }),
  z.strictObject({ does: z.literal('recover'), mark }),
  z.strictObject({ does: z.literal('discard'), mark }),
  z.strictObject({ does: z.literal('save') }),
  z.strictObject({ does: z.literal('save-as') }),
  /** Null takes the protection away. It is so in the file once the visit is saved. */
  z.strictObject({ does: z.literal('protect'), passphrase: passphrase.nullable() }),
  z.strictObject({ does: z.literal('remove-traces') }),
  /** What was asked is answered. */
  z.strictObject({ does: z.literal('cancel') }),
  z.strictObject({ does: z.literal('go-on') }),
  z.strictObject({ does: z.literal('save-first') }),
  z.strictObject({ does: z.literal('open-with'), passphrase }),
])

export type FileRequest = z.infer<typeof FILE_REQUEST>
