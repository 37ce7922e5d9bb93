/** What the person should know of what was done; a screen reader hears it when it comes. */
export function Notices({ notices }: { readonly notices: readonly string[] }) {
  return (
    <div className="notices" aria-live="polite">
      {notices.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
    </div>
  )
}
