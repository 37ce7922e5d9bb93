import type { Assets } from '../window/assets'
import { securityHeaders } from '../window/securityHeaders'

/** The desktop window's own scheme and its one origin. */
export const APP_SCHEME = 'app'
const APP_HOST = 'visit-report'
export const APP_PAGE = `${APP_SCHEME}://${APP_HOST}/`

/** Whether an address belongs to the window's own origin. Parsed, since a prefix proves nothing. */
export function isOwnAddress(address: string): boolean {
  const url = URL.parse(address)
  return (
    url !== null &&
    url.protocol === `${APP_SCHEME}:` &&
    url.host === APP_HOST &&
    url.username === '' &&
    url.password === ''
  )
}

/** Whether the window may load or save from an address: its own, or data that it made itself. */
export function mayLoad(address: string): boolean {
  if (address.startsWith('blob:')) return isOwnAddress(address.slice('blob:'.length))
  return address.startsWith('data:image/') || isOwnAddress(address)
}

/** Answers a request on the own scheme from the list of built files. */
export function assetResponse(
  assets: Assets,
  request: { readonly url: string; readonly method: string },
): Response {
  const headers = securityHeaders("'none'", "'none'")
  if (request.method !== 'GET') return new Response(null, { status: 405, headers })
  const asset = isOwnAddress(request.url) ? assets.get(new URL(request.url).pathname) : undefined
  if (!asset) return new Response(null, { status: 404, headers })
  return new Response(asset.bytes, { headers: { ...headers, 'content-type': asset.type } })
}
