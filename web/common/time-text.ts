/** "25 Nov 2026, 14:30" */
export const timeText = (at: string, language: string | undefined): string =>
  new Intl.DateTimeFormat(language && regionOf(language), {
    dateStyle: 'medium',
    timeStyle: 'short',
  }).format(new Date(at));

/** The reader's own region of a language, since days are written differently in each: "en-GB" for "en". */
export const regionOf = (language: string): string => {
  const { navigator } = globalThis as {
    readonly navigator?: { readonly languages?: readonly string[] };
  };
  return navigator?.languages?.find((tag) => tag.split('-')[0] === language) ?? language;
};
