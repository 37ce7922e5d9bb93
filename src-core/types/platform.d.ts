// Encoding Standard classes that Node and browsers both provide; declared here because this folder is
// compiled without the types of either.
declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean })
  decode(input?: Uint8Array, options?: { stream?: boolean }): string
}
declare class TextEncoder {
  encode(input?: string): Uint8Array
}
