/** A class of the PDF library that its types leave out; bundled, it may lie one step deeper. */
declare const given: { readonly prototype: object } | { readonly default: { readonly prototype: object } }
export default given
