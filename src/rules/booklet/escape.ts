import { Marked } from 'marked';

/** Text as HTML or SVG content. */
export const escaped = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

const safeScheme = /^(https?:|mailto:|tel:)/i;

const markdown = new Marked({
  async: false,
  // HTML is no part of it: tags are letters like all others, which then come out escaped
  tokenizer: { html: () => undefined, tag: () => undefined },
  renderer: {
    link({ href, tokens }) {
      const text = this.parser.parseInline(tokens);
      return safeScheme.test(href) ? `<a href="${escaped(href)}">${text}</a>` : text;
    },
    image: ({ text }) => escaped(text),
  },
});

/** Markdown of the words as HTML: raw HTML is shown as text, links of unsafe schemes and pictures are left out. */
export const markdownHtml = (text: string): string => markdown.parse(text) as string;
