/** What the program asks before it goes on. */
export type AskedOfPerson =
  /** `again`: what was wrong with the last of `tries`; null before the first. */
  | {
      readonly kind: 'passphrase'
      readonly name: string
      readonly again: string | null
      readonly tries: number
    }
  /** Another visit is to be opened, or an empty one begun, and this one is not saved. */
  | { readonly kind: 'unsaved'; readonly next: string | null }
  | { readonly kind: 'open-elsewhere'; readonly name: string }
  | { readonly kind: 'changed-outside'; readonly name: string }
  | { readonly kind: 'gone-outside'; readonly name: string }
  /** A file that this window did not open stands where the visit is to be saved; a visit, or any other. */
  | { readonly kind: 'other-stands'; readonly name: string; readonly isVisit: boolean }
  | { readonly kind: 'remove-traces' }
