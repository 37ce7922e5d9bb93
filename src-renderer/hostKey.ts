import { KEY_NAME } from '../src-core/bridge/wire'

/**
 * The key that the browser host gave this page when it was opened by the printed address; null where it gave none. It is
 * kept for this tab alone, so that the page can be loaded again; no other port of this computer gets to see it.
 */
export function hostKey(): string | null {
  const given = document.querySelector<HTMLMetaElement>(`meta[name="${KEY_NAME}"]`)
  const key = given?.content ?? kept()
  given?.remove()
  if (key !== null) keep(key)
  // The address with the token is used up.
  if (location.pathname !== '/') history.replaceState(null, '', '/')
  return key
}

function kept(): string | null {
  try {
    return sessionStorage.getItem(KEY_NAME)
  } catch {
    return null
  }
}

function keep(key: string): void {
  try {
    sessionStorage.setItem(KEY_NAME, key)
  } catch {
    // A browser that keeps nothing: once loaded again, the page asks for a new address.
  }
}
