import { loadUpkeepRules } from '../../shared/upkeep/rules.ts';
import { loadWork } from '../../shared/work/read.ts';
import { loadWorkWords } from '../../shared/work/words.ts';
import type { ReadRuleSet } from '../../src/rules/read.ts';
import { readUiWords } from './ui-words.ts';

export interface JsonFile {
  /** below the site's root: "rules/tables.json" */
  readonly path: string;
  readonly text: string;
}

/**
 * What the browser loads of a rule set: the tables once; per language the words of the diagnosis and those of the
 * screens. Screens also say a few things the command line says (kinds of parts, who does a job), so they get those
 * phrases with them.
 */
export function jsonFilesOf({ ruleSet, words, files }: ReadRuleSet): readonly JsonFile[] {
  const languages = Object.entries(words);
  return [
    { path: 'rules/tables.json', text: JSON.stringify(ruleSet) },
    ...languages.flatMap(([language, spoken]) => [
      { path: `rules/words-${language}.json`, text: JSON.stringify(spoken) },
      {
        path: `rules/screen-${language}.json`,
        text: JSON.stringify({ ...spoken.phrases, ...readUiWords(files, language) }),
      },
    ]),
    // job sheets are fetched when work begins, and kept for times without a network
    { path: 'rules/work.json', text: JSON.stringify(loadWork(files)) },
    ...languages.map(([language]) => ({
      path: `rules/work-${language}.json`,
      text: JSON.stringify(loadWorkWords(files, language)),
    })),
    { path: 'rules/upkeep.json', text: JSON.stringify(loadUpkeepRules(files, ruleSet)) },
    { path: 'rules/languages.json', text: JSON.stringify(ruleSet.head.languages) },
  ];
}
