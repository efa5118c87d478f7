/** Words of the server, with what it marks as text of the file set as such. */
export function Prose({ words }: { readonly words: string }) {
  return <>{words.split("`").map((part, i) => (i % 2 === 1 ? <code key={i}>{part}</code> : part))}</>;
}
