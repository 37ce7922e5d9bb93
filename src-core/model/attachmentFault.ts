/** Why what a report carries is not read. */
export type AttachmentFault =
  /** The PDF itself cannot be read. */
  | 'unreadable'
  /** It is not what was attached. */
  | 'damaged'
  /** It is in the form of another version of the program. */
  | 'other-version'
