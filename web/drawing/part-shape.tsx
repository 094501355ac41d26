import type { PicturePart } from './picture.ts';

/**
 * The outline of one part about its middle, 32 pixels across. Pump, valve, check valve and gauge follow the graphic
 * symbols of ISO 14617 (circle with triangle, two triangles, triangle and bar, circle with pointer); the rest are what
 * the part looks like on the wall.
 */
export function PartShape({ part }: { readonly part: PicturePart }) {
  switch (part.kind) {
    case 'tank':
      return (
        <>
          <path class="outline" d="M-16,-18V16H16V-18" />
          <path class="water-line" d="M-16,-8Q-8,-12 0,-8T16,-8V16H-16Z" />
        </>
      );
    case 'suction':
      return (
        <>
          <path class="outline" d="M-14,-5H14V5H-14Z" />
          <path class="detail" d="M-8,-5V5M-2,-5V5M4,-5V5M10,-5V5" />
        </>
      );
    case 'pump':
      return (
        <>
          <circle class="outline" r="16" />
          <path class="detail" d="M-8,-13.5L16,0L-8,13.5" />
        </>
      );
    case 'vessel':
      return (
        <>
          <rect class="outline" x="-12" y="-16" width="24" height="30" rx="11" />
          <path class="detail" d="M-12,0Q0,7 12,0" />
        </>
      );
    case 'valve':
      return <path class="outline" d="M-14,-9L14,9V-9L-14,9Z" />;
    case 'check-valve':
      return (
        <>
          <path class="outline" d="M-12,-10L10,0L-12,10Z" />
          <path class="detail" d="M11,-11V11" />
        </>
      );
    case 'bypass':
      return <path class="detail" d="M-16,8V-10H16V8M-6,-15L6,-5V-15L-6,-5Z" />;
    case 'gauge':
      return (
        <>
          <circle class="outline" r="13" />
          <path class="detail" d="M0,2L7,-7M0,13V20" />
          <circle class="dot" cy="2" r="2" />
        </>
      );
    case 'filter':
      return <FilterShape medium={part.words} />;
    case 'uv':
      return (
        <>
          <rect class="outline" x="-16" y="-9" width="32" height="18" rx="3" />
          <path
            class="detail"
            d="M-10,0H10M-6,-5L-8,-7M0,-5V-8M6,-5L8,-7M-6,5L-8,7M0,5V8M6,5L8,7"
          />
        </>
      );
    case 'house':
      return (
        <>
          <path class="outline" d="M-15,16V-3L0,-16L15,-3V16Z" />
          <path class="detail" d="M-6,2H4V7M-2,2V-2M4,11V14" />
        </>
      );
    case 'mains':
      return (
        <>
          <rect class="outline" x="-13" y="-11" width="26" height="22" />
          <path class="detail" d="M-13,0H5M0,-5L6,0L0,5" />
        </>
      );
    case 'drain':
      return <path class="outline" d="M-9,-6H9L0,8Z" />;
    case 'pressure-reducer':
      return <path class="outline" d="M-14,-9L14,9V-9L-14,9ZM0,0V-14M-6,-14H6" />;
    default:
      return <path class="outline" d="M-12,-12H12V12H-12Z" />;
  }
}

/** A housing with a cap; inside it says by its marks what fills it. */
function FilterShape({ medium }: { readonly medium: string }) {
  const marks: Record<string, string> = {
    sediment: 'M-6,-4H6M-6,1H6M-6,6H6M-6,11H6',
    carbon: 'M-6,-5L6,13M6,-5L-6,13',
    membrane: 'M-4,-5V13M0,-5V13M4,-5V13',
  };
  return (
    <>
      <path class="outline" d="M-12,-17H12V-9H-12Z" />
      <path class="outline" d="M-9,-9H9V13Q9,17 5,17H-5Q-9,17 -9,13Z" />
      {marks[medium] === undefined ? (
        <>
          <circle class="dot" cx="-4" cy="0" r="2" />
          <circle class="dot" cx="4" cy="4" r="2" />
          <circle class="dot" cx="-2" cy="10" r="2" />
        </>
      ) : (
        <path class="detail" d={marks[medium]} />
      )}
    </>
  );
}
