/** Why a whole log was refused, in the words of the command line's contract. */
export type RefusalCode =
  | 'empty-file'
  | 'not-text'
  | 'no-glucose-column'
  | 'no-date-column'
  | 'no-readings'
  | 'unit-unknown'
  | 'date-order-unknown'
  | 'field-too-large'
  | 'unreadable-file'

/** One answer that a question accepts. */
export interface Choice {
  /** The value of the option that gives this answer, such as 'dmy'. */
  readonly answer: string
  readonly label: string
  /** A piece of the log read this way, such as '5 March 2026'; for the person's own eyes, never in a message. */
  readonly example: string
  /** What the whole log would come to with this answer; '' where nothing can be said. */
  readonly effect: string
}

/** What a log leaves open, as data: a command line prints it, a window asks it. */
export interface Question {
  /** The option that answers it, such as '--dates'. */
  readonly option: '--log-unit' | '--dates' | '--columns'
  readonly choices: readonly Choice[]
}

/** What happened, and what to do about it where the person is; without measured values and texts of notes. */
export interface Message {
  readonly what: string
  readonly inTerminal: string
  readonly inWindow: string
}

/** A log that was not read, or needs an answer first. */
export interface Refusal {
  readonly log: string
  readonly code: RefusalCode
  /** 1-based; null where no line is to blame. */
  readonly line: number | null
  readonly message: Message
  readonly question: Question | null
}
