import { CaseScreen } from './screens/case-screen.tsx';
import { DemoScreen } from './screens/demo-screen.tsx';
import { LinkScreen } from './screens/link-screen.tsx';
import { NoCase } from './screens/no-case.tsx';
import { CasePlantScreen, NewPlantScreen } from './screens/plant-screen.tsx';
import { StartScreen } from './screens/start-screen.tsx';

/** Which screen an address means. */
export function Routes({ path }: { readonly path: string }) {
  const [first, second = '', third] = path.split('/').filter(Boolean).map(decodeURIComponent);
  switch (first) {
    case undefined:
      return <StartScreen />;
    case 'plant':
      return <NewPlantScreen />;
    case 'demo':
      return <DemoScreen />;
    case 'c':
      return <LinkScreen key={second} id={second} />;
    case 'case':
      if (third === undefined) return <CaseScreen key={second} caseKey={second} />;
      if (third === 'plant') return <CasePlantScreen key={second} caseKey={second} />;
      return <NoCase />;
    default:
      return <NoCase />;
  }
}
