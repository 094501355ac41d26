/** The screens of the desk that are not of one case, fetched as one file: who needs one needs the others soon. */
export { DeskScreen } from './desk-screen.tsx';
export { NewCallScreen } from './new-call-screen.tsx';
export { PeopleScreen } from './people-screen.tsx';
