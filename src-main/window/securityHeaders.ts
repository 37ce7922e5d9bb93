/**
 * Headers of every answer that the window gets. `connect` is where its scripts may send to: nowhere in the
 * desktop program, whose messages go through the preload script; the host itself in a browser. `frames`: what may stand
 * in a frame: in a browser the PDF that the page itself made, to be printed.
 */
export function securityHeaders(
  connect: "'none'" | "'self'",
  frames: "'none'" | 'blob:',
): Readonly<Record<string, string>> {
  return {
    'content-security-policy': [
      "default-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      ['img-src', "'self'", 'data:', 'blob:'].join(' '),
      "font-src 'self'",
      `connect-src ${connect}`,
      `frame-src ${frames}`,
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
    ].join('; '),
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  }
}
