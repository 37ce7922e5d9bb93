// Modules of the PDF library that its types leave out; bundled, their class may lie one step deeper.

declare module 'pdfmake/js/LayoutBuilder.js' {
  const LayoutBuilder: { readonly prototype: object } | { readonly default: { readonly prototype: object } }
  export default LayoutBuilder
}

declare module 'pdfmake/js/Renderer.js' {
  const Renderer: { readonly prototype: object } | { readonly default: { readonly prototype: object } }
  export default Renderer
}
