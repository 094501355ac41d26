/** Words of the rule set as paragraphs; a line in quotes is for reading aloud. */
export function Paragraphs({
  text,
  class: name,
}: {
  readonly text: string;
  readonly class?: string;
}) {
  return (
    <>
      {text
        .split(/\n+/)
        .map((line) =>
          line.startsWith('"') ? (
            <blockquote class={`aloud ${name ?? ''}`}>{line}</blockquote>
          ) : (
            <p class={name}>{line}</p>
          ),
        )}
    </>
  );
}
