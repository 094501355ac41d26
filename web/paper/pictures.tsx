import type { Picture } from '../../shared/upkeep/pictures/frame.ts';

/** Drawings of the record, each with what it says in words. A narrow screen scrolls them. */
export function Pictures({ pictures }: { readonly pictures: readonly Picture[] }) {
  return (
    <>
      {pictures.map(({ svg, title, text }) => (
        <figure key={title} class="record-picture">
          <figcaption>
            <strong>{title}.</strong> {text}
          </figcaption>
          <section
            class="scroll"
            tabindex={0}
            aria-label={title}
            dangerouslySetInnerHTML={{ __html: svg }}
          />
        </figure>
      ))}
    </>
  );
}
