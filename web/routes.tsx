import { lazy } from './lazy.tsx';
import { CaseScreen } from './screens/case-screen.tsx';
import { DemoScreen } from './screens/demo-screen.tsx';
import { LinkScreen } from './screens/link-screen.tsx';
import { NoCase } from './screens/no-case.tsx';
import { CasePlantScreen, NewPlantScreen } from './screens/plant-screen.tsx';
import { StartScreen } from './screens/start-screen.tsx';

const WorkScreen = lazy(() => import('./work/work-screen.tsx').then((file) => file.WorkScreen));

/** Which screen an address means. */
export function Routes({ path }: { readonly path: string }) {
  const [first, second = '', third, fourth = '', fifth = '-'] = path
    .split('/')
    .filter(Boolean)
    .map(decodeURIComponent);
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
      if (third === 'work') {
        return <WorkScreen key={path} caseKey={second} job={fourth} parts={fifth} />;
      }
      return <NoCase />;
    default:
      return <NoCase />;
  }
}
