/** Strong vowels, and weak ones with an accent, make a syllable each; unaccented i and u lean on a neighbour. */
const nucleus = /[iuü]?[aeoáéó][iuü]?(?![íú])|[iuü]?[aeoáéó]|[íú]|[iuü]{1,2}/g;

/** Syllables of a Spanish word by the rules for diphthongs and hiatus (RAE, Ortografía 2010, ch. II § 3.3). */
export function syllablesOf(word: string): number {
  const sounds = word
    .toLowerCase()
    // the u of que, qui, gue, gui is silent; y at a syllable's end sounds as i
    .replace(/([qg])u(?=[eiéí])/g, '$1')
    .replace(/y(?![aeiouáéíóú])/g, 'i');
  return Math.max(1, sounds.match(nucleus)?.length ?? 0);
}

/**
 * How easily a Spanish text is read, 0 (hard) to 100: the perspicuity of Szigriszt-Pazos (1993),
 * 206.835 − 62.3 · syllables/words − words/sentences. On the INFLESZ scale (Barrio-Cantalejo et al., An. Sist. Sanit.
 * Navar. 2008; 31(2): 135–152) 55 to 65 is "normal", 65 to 80 "fairly easy"; both as given at
 * legible.es/blog/perspicuidad-szigriszt-pazos and cnbguatemala.org (Escala Inflesz).
 */
export function perspicuity(text: string): number {
  const sentences = text.split(/[.!?:;]+(?=\s|$|")/).filter((one) => /\p{L}/u.test(one)).length;
  const words = text.match(/[\p{L}\p{N}](?:[\p{L}\p{N}.,]*[\p{L}\p{N}])?/gu) ?? [];
  const syllables = words.reduce((sum, word) => sum + syllablesOf(word), 0);
  return 206.835 - (62.3 * syllables) / words.length - words.length / sentences;
}
